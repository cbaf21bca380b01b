def highest(readings):
    """The highest of some readings."""
    return max(readings)
