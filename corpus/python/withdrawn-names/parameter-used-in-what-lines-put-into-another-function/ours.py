def crest(rows, kind="high", datum=0):
    """The crest of some rows.

    rows : the rows to look at
    kind : which crest
    datum : what levels are above
    """
    best = None
    for row in rows:
        if datum:
            places = len(str(datum))
            level = row.level - datum
            level = round(level, places)
            level = max(level, 0)
            log(level, places)
        else:
            level = row.level
        if best is None or level > best:
            best = level
    if kind == "high":
        return best
    return -best


def report(rows):
    """What the board shows."""
    first = crest(rows, kind="high", datum=2)
    return first


def warn(rows):
    """What the siren needs."""
    return crest(rows, kind="low", datum=2)
