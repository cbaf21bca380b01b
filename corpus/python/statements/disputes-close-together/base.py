def refresh(gauge):
    level = gauge.read()
    trend = gauge.trend()
    # The quay's zero is not the chart's.
    datum = gauge.datum()
    board.show(level, trend)
    board.stamp(gauge.name)
    board.light(lamp)
    board.sound(horn)
    store.keep(level)
    return level
