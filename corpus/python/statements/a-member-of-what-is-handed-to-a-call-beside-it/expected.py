def draw(port):
<<<<<<< ours
    level = port.level
=======
    rows = refresh(port)
>>>>>>> theirs
    show(port)
