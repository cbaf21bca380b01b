try:
    level = gauge.read()
except (OSError, gauges.errors.read.Error):
    level = gauge.last()
