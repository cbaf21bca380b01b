from tideboard import gauge


if gauge.ready:
    level = gauge.read()
    store(level)

    chart = draw(level)
    publish(chart)

    log("refreshed")
