def levels(port, cutoff):
    if port in known:
        return []
    if cutoff is None:
        cutoff = len(known) - 1
    if cutoff < 1:
        return []
    return draw(port, cutoff)
