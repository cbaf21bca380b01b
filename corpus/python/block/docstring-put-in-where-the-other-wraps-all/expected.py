def low(day):
    """The lowest tide of a day."""
    if quay_ready():
        level = connect(day)
        show(level)
        return level
