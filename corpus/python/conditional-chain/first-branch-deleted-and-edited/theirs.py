def f(row):
    if row.kind == "wind" and ok:
        return wind(row)
    elif row.kind == "tide":
        return tide(row)
    return 0
