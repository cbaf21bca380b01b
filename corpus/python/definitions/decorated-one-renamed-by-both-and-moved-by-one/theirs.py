@cached
def height(port):
    rows = load(port)
    if rows:
        return draw(rows, "ebb")
    return None


def low(port):
    return port.low()
