def show(gauge):
    for tide in gauge.tides:
<<<<<<< ours
        level = tide.level(unit)
=======
        level = tide.level("m")
>>>>>>> theirs
        draw(level)
    done(level, 2)
    finish()
