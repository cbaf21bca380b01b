def summary(rows):
    # A full one does not fit.
    if len(rows) > LIMIT:
        return []
    return rows
