def run():
<<<<<<< ours
    if not ok:
        return
    level = read()
    show(level)
=======
    if ok:
        level = read()
        show(level)
    close()
>>>>>>> theirs
