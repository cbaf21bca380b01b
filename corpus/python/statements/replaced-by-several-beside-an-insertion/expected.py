def poll(gauge):
    if gauge.stale:
        gauge.reset(5)
<<<<<<< ours
        message = "The gauge on the quay sends nothing but old levels."
        gauge.report(message)
        log.debug(message)
=======
        gauge.report("The gauge on the quay sends nothing but old levels.")
        log.debug("The gauge on the quay sends nothing but old levels.",
                  exc_info=True)
>>>>>>> theirs
        return
    read(gauge)
