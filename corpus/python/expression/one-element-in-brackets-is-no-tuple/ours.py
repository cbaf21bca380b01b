def args(level):
    names = (level,)
    return draw(level)
