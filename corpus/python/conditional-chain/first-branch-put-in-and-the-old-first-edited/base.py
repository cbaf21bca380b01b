def f(row):
    if row.kind == "tide":
        return tide(row)
    else:
        return other(row)
