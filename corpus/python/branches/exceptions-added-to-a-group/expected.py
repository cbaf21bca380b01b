try:
    gauges.read()
except* (
    OSError,
    GaugeError,
    TimeoutError,
    ValueError,
):
    pass
