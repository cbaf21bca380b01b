def draw(tide):
    if tide.low:
        warn(tide)
    elif tide.slack:
        show(tide, "still")
<<<<<<< ours
    elif tide.rising:
        show(tide, "up")
=======
>>>>>>> theirs
    elif tide.falling:
        show(tide, "down")
