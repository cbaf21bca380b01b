def draw(level):
    """Quiet charts of the tide.

    A chart is drawn once an hour, from the levels of the day.
    It is kept for a week.
    """
    plot(level)
