try:
    level = gauge.read()
except (OSError):
    level = gauge.last()
