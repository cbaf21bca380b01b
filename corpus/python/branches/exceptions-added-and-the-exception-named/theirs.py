try:
    level = gauge.read()
except OSError as error:
    log("no level", error)
