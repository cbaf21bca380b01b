def level(gauge):
    try:
        return gauge.read()
    except (OSError, ValueError, TimeoutError) as error:
        log(error)
