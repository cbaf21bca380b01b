def show(port):
    draw(pick(port))
    return port
