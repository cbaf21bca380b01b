def draw(level):
    """Draw one level.

    :param level: in metres
    """
    plot(level)
