def show(gauge):
    if gauge.wet:
        level = gauge.level()
        draw(level)
        log(level)
    return level
