def summary(rows):
    # Some boards need no table.
    if len(rows) > LIMIT:
        return []
    return rows
