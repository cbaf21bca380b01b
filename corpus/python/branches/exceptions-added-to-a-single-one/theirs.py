try:
    level = gauge.read()
except (OSError, TimeoutError) as error:
    level = gauge.last()
