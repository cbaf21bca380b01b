def low():
    if quay_ready():
        from tide.level import Level
        from quay import Gauge

        level = connect(Level)
        show(level)
