def draw(level):
    """Draw one level.

    :param level: in metres
    :return: nothing

    .. deprecated:: 2
    """
    plot(level)
