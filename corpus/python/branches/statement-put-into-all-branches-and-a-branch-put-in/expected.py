def run(kind):
    if kind == "tide":
        draw()
<<<<<<< ours
        flush()
=======
    elif kind == "wind":
        wind()
>>>>>>> theirs
    else:
        clear()
        flush()
