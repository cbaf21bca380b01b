def draw(level):
    """Charts of the tide.

    """
    plot(level)
