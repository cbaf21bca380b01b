try:
    gauges.read()
except* (
    OSError,
    GaugeError,
    ValueError,
):
    pass
