def low():
    if quay_ready():
        from tide.level import Level
        from quay import Buoy, Gauge
        from tide.range import Range

        level = connect(Level)
        show(level)
