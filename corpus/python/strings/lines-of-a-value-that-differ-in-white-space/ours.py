def high(rows):
    text = """The highest level.

    Above chart datum.
    In metres, or feet.
    """
    return text
