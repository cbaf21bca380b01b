def level(gauge):
    try:
        return gauge.read()
    except (OSError, ValueError):
        return gauge.last()
