try:
    level = gauge.read()
except (OSError, GaugeError):
    log("no level")
