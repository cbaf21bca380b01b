def f(row):
    if row.kind == "tide":
        return tide(row)
    return 0
