def refresh(gauge):
    level = gauge.read(raw=False)
    trend = gauge.trend()
    # The quay's zero is not the chart's.
    datum = gauge.datum("chart")
    board.show(level, trend)
    board.stamp(gauge.name)
    board.light(lamp)
    board.sound(horn)
    store.keep(level, days=90)
    return level
