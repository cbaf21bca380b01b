from tides import *


def show(port):
    log(port)
    draw(low(port))
    save(high(port))
