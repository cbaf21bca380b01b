try:
    level = gauge.read()
except OSError as error:
    level = gauge.last()
