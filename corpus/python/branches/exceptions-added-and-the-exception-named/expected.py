try:
    level = gauge.read()
except (OSError, GaugeError) as error:
    log("no level", error)
