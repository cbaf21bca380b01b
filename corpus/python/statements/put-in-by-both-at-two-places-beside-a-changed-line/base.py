def tide(pending, rows):
    first = len(pending)
    second = len(rows)
    # The gauges of the outer harbour.

    # Only what was asked for.
    # Nothing else.
    if rows is None or len(rows) == 0:
        left = []
    else:
        left = [row for row in rows]
    return left
