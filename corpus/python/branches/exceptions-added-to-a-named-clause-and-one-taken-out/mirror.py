def level(gauge):
    try:
        return gauge.read()
    except (OSError, TimeoutError, GaugeError) as error:
        log(error)
