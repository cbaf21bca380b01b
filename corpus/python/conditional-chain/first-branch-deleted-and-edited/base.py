def f(row):
    if row.kind == "wind":
        return wind(row)
    elif row.kind == "tide":
        return tide(row)
    return 0
