def draw(level):
    """Draw one level.

    :param level: in metres

    .. deprecated:: 2
    """
    plot(level)
