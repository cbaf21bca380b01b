def draw(port):
    rows = refresh(port)
    show(port)
