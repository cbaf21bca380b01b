def level(gauge):
    try:
        return gauge.read()
    except (OSError, GaugeError, TimeoutError) as error:
        log(error)
