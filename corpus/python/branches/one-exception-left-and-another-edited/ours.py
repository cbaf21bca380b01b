try:
    level = gauge.read_now()
except (ValueError, OSError, GaugeError):
    level = gauge.last_now()
