def mean(rows):
    """Mean height of the rows, in metres above the chart datum of the station. Rows with no height are skipped.

    Reads nothing.
    """
    return sum(row.height for row in rows)
