def low(day):
    if quay_ready():
        level = connect(day)
        show(level)
        return level
