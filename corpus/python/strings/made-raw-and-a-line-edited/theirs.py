def surge(level):
    """Returns the surge above a level.

    It is at most \pm 3 metres.
    """
    return level
