try:
    gauges.read()
except* (
    OSError,
    ValueError,
):
    pass
