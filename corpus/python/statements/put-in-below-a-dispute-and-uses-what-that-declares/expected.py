def show(port):
<<<<<<< ours
    draw(pick(port))
=======
    gauge = pick(port)
    shown = draw(gauge)
    keep(shown)
>>>>>>> theirs
    return port
