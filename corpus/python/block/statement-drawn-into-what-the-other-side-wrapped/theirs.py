def berth(port, level):
    if level > 3:
        if is_open(port):
            return assign(port, 34)
    return wait(port)
