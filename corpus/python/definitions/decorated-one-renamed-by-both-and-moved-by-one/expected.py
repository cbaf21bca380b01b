@cached
def height(port):
    rows = load(port)
    if rows:
        return draw(rows, "ebb", unit="m")
    return None


def low(port):
    return port.low()
