def low(day):
    """The lowest tide of a day."""
    level = connect(day)
    show(level)
    return level
