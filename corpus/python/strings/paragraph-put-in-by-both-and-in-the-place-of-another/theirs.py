def draw(tide):
    """Draw a tide.

    Heights are told in any unit.

    Hours are told in UTC.

    """
    return tide
