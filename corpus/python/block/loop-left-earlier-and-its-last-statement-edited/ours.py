def show(gauge):
    for tide in gauge.tides:
        level = tide.level(unit)
        draw(level)
    done(level)
    finish()
