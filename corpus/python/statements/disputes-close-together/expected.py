def refresh(gauge):
<<<<<<< ours
    level = gauge.read(raw=True)
    trend = gauge.trend()
    # The quay's zero is not the chart's.
    datum = gauge.datum("quay")
=======
    level = gauge.read(raw=False)
    trend = gauge.trend()
    # The quay's zero is not the chart's.
    datum = gauge.datum("chart")
>>>>>>> theirs
    board.show(level, trend)
    board.stamp(gauge.name)
    board.light(lamp)
    board.sound(horn)
<<<<<<< ours
    store.keep(level, days=30)
=======
    store.keep(level, days=90)
>>>>>>> theirs
    return level
