def poll(gauge):
    if gauge.stale:
        gauge.reset(5)
        gauge.report("The gauge on the quay sends nothing but old levels.")
        return
    read(gauge)
