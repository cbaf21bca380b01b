try:
    level = gauge.read()
except OSError:
    log("no level")
