def f(row):
<<<<<<< ours
    if row.kind == "wind":
        return wind(row)
    elif row.kind == "tide":
        return tide(row)
=======
    if row.kind == "tide":
        return tide(row, unit="m")
>>>>>>> theirs
    else:
        return other(row)
