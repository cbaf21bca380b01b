try:
    level = gauge.read()
except (OSError, TimeoutError, GaugeError) as error:
    level = gauge.last()
