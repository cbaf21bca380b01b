def draw(tide):
    if tide.low:
        warn(tide)
    elif tide.rising:
        show(tide, "up")
    elif tide.falling:
        show(tide, "down")
