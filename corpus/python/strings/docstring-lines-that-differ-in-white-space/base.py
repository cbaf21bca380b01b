def high(rows):
    """The highest level.
    Above chart datum.
    In metres.
    """
    return max(rows)
