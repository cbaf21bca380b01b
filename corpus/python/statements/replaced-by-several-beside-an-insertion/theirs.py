def poll(gauge):
    if gauge.stale:
        gauge.reset(5)
        gauge.report("The gauge on the quay sends nothing but old levels.")
        log.debug("The gauge on the quay sends nothing but old levels.",
                  exc_info=True)
        return
    read(gauge)
