def low(port):
    return port.low()


@cached
def level(port):
    rows = load(port)
    if rows:
        return draw(rows, "ebb")
    return None
