def high(rows):
    """The highest level.
    In metres or feet.  
    Above chart datum.  
    """
    return max(rows)
