def refresh(gauge):
    level = gauge.read(raw=True)
    trend = gauge.trend()
    # The quay's zero is not the chart's.
    datum = gauge.datum("quay")
    board.show(level, trend)
    board.stamp(gauge.name)
    board.light(lamp)
    board.sound(horn)
    store.keep(level, days=30)
    return level
