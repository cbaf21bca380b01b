def show(gauge):
    if gauge.wet and gauge.open:
        level = gauge.level()
        draw(level)
    log(level)
    return level
