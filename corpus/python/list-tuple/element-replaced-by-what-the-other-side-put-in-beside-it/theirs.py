for name, unit, zone in gauges():
    show(name, zone)
