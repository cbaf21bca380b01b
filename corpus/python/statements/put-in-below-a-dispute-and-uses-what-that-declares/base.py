def show(port):
    gauge = pick(port)
    draw(gauge)
    return port
