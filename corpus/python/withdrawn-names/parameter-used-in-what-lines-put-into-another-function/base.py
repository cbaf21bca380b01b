def crest(rows, kind="high"):
    """The crest of some rows.

    rows : the rows to look at
    kind : which crest
    """
    best = None
    for row in rows:
        level = row.level
        if best is None or level > best:
            best = level
    if kind == "high":
        return best
    return -best


def report(rows):
    """What the board shows."""
    first = crest(rows, kind="high")
    return first


def warn(rows):
    """What the siren needs."""
    return crest(rows, kind="low")
