def levels(port, cutoff):
    if port in known:
        return []
    if cutoff is None:
        cutoff = len(known) - 1
    if isinstance(cutoff, int):
        if cutoff < 1:
            return []
        return draw(port, cutoff)
    raise TypeError(cutoff)
