def show(port):
<<<<<<< ours
    gauge = pick(port)
    shown = draw(gauge)
    keep(shown)
=======
    draw(pick(port))
>>>>>>> theirs
    return port
