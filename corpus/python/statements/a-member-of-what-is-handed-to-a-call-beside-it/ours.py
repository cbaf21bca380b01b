def draw(port):
    level = port.level
    show(port)
