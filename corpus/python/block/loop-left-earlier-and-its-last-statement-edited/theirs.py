def show(gauge):
    for tide in gauge.tides:
        level = tide.level("m")
        draw(level)
        done(level, 2)
    finish()
