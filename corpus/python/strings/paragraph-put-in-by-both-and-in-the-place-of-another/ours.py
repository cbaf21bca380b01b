def draw(tide):
    """Draw a tide.

    Heights are told in any unit.

    Heights are told in metres.

    Hours are told in UTC.

    """
    return tide
