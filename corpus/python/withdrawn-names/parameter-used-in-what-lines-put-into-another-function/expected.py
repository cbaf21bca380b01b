def crest(rows, kind="high", datum=0):
    """The crest of some rows.

    rows : the rows to look at
    kind : which crest
    datum : what levels are above
    """
    log("crest is deprecated")
    return _crest(rows, kind=kind)


def _crest(rows, kind="high"):
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
<<<<<<< ours
    first = crest(rows, kind="high", datum=2)
=======
    first = _crest(rows, kind="high")
>>>>>>> theirs
    return first


def warn(rows):
    """What the siren needs."""
<<<<<<< ours
    return crest(rows, kind="low", datum=2)
=======
    return _crest(rows, kind="low")
>>>>>>> theirs
