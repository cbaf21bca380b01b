try:
    level = gauge.read()
except (OSError, GaugeError) as error:
    level = gauge.last()
