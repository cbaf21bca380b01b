def level(gauge):
    try:
        return gauge.read()
    except (OSError, GaugeError) as error:
        log(error)
