try:
    level = gauge.read()
except (OSError, GaugeError, TimeoutError) as error:
    level = gauge.last()
