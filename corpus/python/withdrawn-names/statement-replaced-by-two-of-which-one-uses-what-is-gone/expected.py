def show(port):
    level = port.read(port.zone)
<<<<<<< ours
    draw(level)
=======
    shown = scaled(level, zone)
    draw(shown, unit="m")
>>>>>>> theirs
    return level
