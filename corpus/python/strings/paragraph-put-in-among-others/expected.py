def draw(level):
    """Quiet charts of the tide.
    They are grey.

    A chart is drawn once an hour, from the levels of the day.
    It is kept for a week.

    For colours, see the almanac.

    """
    plot(level)
