for name, level, unit, zone in gauges():
    show(name, zone, unit)
