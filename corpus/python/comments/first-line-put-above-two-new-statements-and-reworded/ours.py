def summary(rows):
    # Some boards need no table.
    if not rows:
        return None
    # Some boards need no table.
    if rows.hidden:
        return []
    # A full one does not fit.
    if len(rows) > LIMIT:
        return []
    return rows
