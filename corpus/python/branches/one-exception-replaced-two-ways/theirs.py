try:
    level = gauge.read()
except (OSError, gauges.errors.read.Failure):
    level = gauge.last()
