def summary(rows):
    # Some boards need no table, or
    # a short one.
    if len(rows) > LIMIT:
        return []
    return rows
