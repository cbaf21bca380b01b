def poll(gauge):
    if gauge.stale:
        gauge.reset(5)
        message = "The gauge on the quay sends nothing but old levels."
        gauge.report(message)
        log.debug(message)
        return
    read(gauge)
