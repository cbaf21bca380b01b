def show(gauge):
    for tide in gauge.tides:
        level = tide.level()
        draw(level)
        done(level)
    finish()
