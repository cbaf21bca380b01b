def show(port):
    zone = port.zone
    level = port.read(zone)
    shown = scaled(level, zone)
    draw(shown, unit="m")
    return level
