def draw(tide):
    if tide.low:
        warn(tide)
    elif tide.slack:
        show(tide, "still")
    elif tide.falling:
        show(tide, "down")
