def crest(rows, kind="high"):
    """The crest of some rows.

    rows : the rows to look at
    kind : which crest
    """
    log("crest is deprecated")
    return _crest(rows, kind=kind)


def _crest(rows, kind="high"):
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
    first = _crest(rows, kind="high")
    return first


def warn(rows):
    """What the siren needs."""
    return _crest(rows, kind="low")
