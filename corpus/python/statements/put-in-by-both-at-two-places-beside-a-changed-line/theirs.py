def tide(pending, rows):
    first = len(pending)
    second = len(rows)
    # The gauges of the outer harbour.

    # Only what was asked for.
    # Nothing else.

    both_are_there = first and second
    no_rows_are_there = rows is None or len(rows) == 0
    if no_rows_are_there and both_are_there:
        left = []
    else:
        left = [row for row in rows]
    return left
