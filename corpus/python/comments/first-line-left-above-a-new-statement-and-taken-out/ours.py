def summary(rows):
    # Some boards need no table.
    # An empty one says so.
    if not rows:
        return None
    # A full one does not fit.
    if len(rows) > LIMIT:
        return []
    return rows
