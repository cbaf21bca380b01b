def refresh(gauge):
    level = gauge.read()
    store(level)

    chart = draw(level)
    publish(chart)

    log("refreshed")
