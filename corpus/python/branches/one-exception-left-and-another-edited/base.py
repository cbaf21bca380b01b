try:
    level = gauge.read()
except (ValueError, OSError):
    level = gauge.last()
