def highest(readings):
    """The highest of some readings."""
    if len(readings) == 0:
        raise NoReadings("the gauge was silent")
    return max(readings)
