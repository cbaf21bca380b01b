def berth(port, level):
    if is_open(port):
        return assign(port, 34)
    return wait(port)
