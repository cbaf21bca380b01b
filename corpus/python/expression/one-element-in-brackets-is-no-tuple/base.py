def args(level):
    return draw(level)
