def mean(rows):
    """Mean height of the rows, in metres above the chartdatum of the station.
    Rows with no height are skipped.

    Reads nothing.
    """
    return sum(row.height for row in rows)
