def f(row):
<<<<<<< ours
    if row.kind == "tide":
=======
    if row.kind == "wind" and ok:
        return wind(row)
    elif row.kind == "tide":
>>>>>>> theirs
        return tide(row)
    return 0
