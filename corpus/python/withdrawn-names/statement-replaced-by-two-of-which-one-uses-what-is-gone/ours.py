def show(port):
    level = port.read(port.zone)
    draw(level)
    return level
