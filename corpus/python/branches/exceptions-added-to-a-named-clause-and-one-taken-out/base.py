def level(gauge):
    try:
        return gauge.read()
    except (OSError, ValueError) as error:
        log(error)
