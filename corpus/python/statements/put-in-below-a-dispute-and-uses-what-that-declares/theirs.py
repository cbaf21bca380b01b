def show(port):
    gauge = pick(port)
    shown = draw(gauge)
    keep(shown)
    return port
