for name, level, zone in gauges():
    show(name, zone)
