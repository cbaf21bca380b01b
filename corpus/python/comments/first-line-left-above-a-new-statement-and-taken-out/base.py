def summary(rows):
    # Some boards need no table.
    # A full one does not fit.
    if len(rows) > LIMIT:
        return []
    return rows
