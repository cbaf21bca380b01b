def summary(rows):
    # A few boards have no table.
    # A full one does not fit.
    if len(rows) > LIMIT:
        return []
    return rows
