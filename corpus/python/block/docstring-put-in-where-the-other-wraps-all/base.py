def low(day):
    level = connect(day)
    show(level)
    return level
