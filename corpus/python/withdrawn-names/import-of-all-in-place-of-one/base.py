from tides import high


def show(port):
    log(port)
    draw(port)
