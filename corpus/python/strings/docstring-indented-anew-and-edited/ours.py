def high(rows):
    """
    The highest level.
    In metres.
    Above chart datum.
    """
    return max(rows)
