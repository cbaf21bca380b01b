def show(port):
    zone = port.zone
    level = port.read(zone)
    draw(level)
    return level
