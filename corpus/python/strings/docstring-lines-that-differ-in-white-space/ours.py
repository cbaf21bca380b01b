def high(rows):
    """The highest level.

    Above chart datum.
    In metres, or feet.
    """
    return max(rows)
