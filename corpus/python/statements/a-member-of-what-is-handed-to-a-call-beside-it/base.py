def draw(port):
    show(port)
