def berth(port, level):
<<<<<<< ours
    if is_open(port):
        return assign(port, 34)
    else:
        return wait(port)
=======
    if level > 3:
        if is_open(port):
            return assign(port, 34)
    return wait(port)
>>>>>>> theirs
