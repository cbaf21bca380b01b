from tideboard import gauge


def refresh():
    level = gauge.read()
    store(level)

    chart = draw(level)
    publish(chart)

    log("refreshed")
