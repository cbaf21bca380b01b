try:
    level = gauge.read()
except (OSError, gauges.errors.read.Broken):
    level = gauge.last()
