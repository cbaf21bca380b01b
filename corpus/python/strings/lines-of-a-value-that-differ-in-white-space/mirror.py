def high(rows):
    text = """The highest level.
<<<<<<< ours
    
=======

>>>>>>> theirs
    Above chart datum.
    In metres, or feet.
    For one station.
    """
    return text
