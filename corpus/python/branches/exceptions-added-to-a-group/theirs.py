try:
    gauges.read()
except* (
    OSError,
    TimeoutError,
    ValueError,
):
    pass
