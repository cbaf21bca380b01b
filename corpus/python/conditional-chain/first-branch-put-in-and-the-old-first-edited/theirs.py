def f(row):
    if row.kind == "tide":
        return tide(row, unit="m")
    else:
        return other(row)
