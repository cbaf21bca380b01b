def summary(rows):
    # Some boards need no table.
    if not rows:
        return None
<<<<<<< ours
=======
    # Some boards need no table, or
>>>>>>> theirs
    # a short one.
    if len(rows) > LIMIT:
        return []
    return rows
