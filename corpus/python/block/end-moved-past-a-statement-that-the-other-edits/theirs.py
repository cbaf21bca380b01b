def show(gauge):
    if gauge.wet or gauge.deep:
        level = gauge.level()
        draw(level)
        log(level, "now")
    return level
