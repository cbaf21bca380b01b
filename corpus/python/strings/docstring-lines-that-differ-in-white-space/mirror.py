def high(rows):
    """The highest level.
    
    Above chart datum.
    In metres, or feet.
    For one station.
    """
    return max(rows)
