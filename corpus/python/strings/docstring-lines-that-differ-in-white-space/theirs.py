def high(rows):
    """The highest level.
    
    Above chart datum.
    In metres.
    For one station.
    """
    return max(rows)
