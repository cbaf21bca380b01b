def show(gauge):
<<<<<<< ours
    if gauge.wet and gauge.open:
=======
    if gauge.wet or gauge.deep:
>>>>>>> theirs
        level = gauge.level()
        draw(level)
    log(level, "now")
    return level
