def tide(pending, rows):
    first = len(pending)
    second = len(rows)
    no_rows_are_there = rows is None or len(rows) == 0
    rows = [] if rows is None else rows
    both_are_there = first and second
    known = {row for row in rows}
    # The gauges of the outer harbour.

    # Only what was asked for.
    # Nothing else.
    if no_rows_are_there and both_are_there:
        left = []
    else:
        left = [row for row in rows]
    return left
