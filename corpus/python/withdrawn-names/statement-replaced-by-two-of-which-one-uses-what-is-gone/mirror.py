def show(port):
    level = port.read(port.zone)
<<<<<<< ours
    shown = scaled(level, zone)
    draw(shown, unit="m")
=======
    draw(level)
>>>>>>> theirs
    return level
