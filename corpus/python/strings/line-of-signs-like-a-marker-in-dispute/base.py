BANNER = None
PORT = 8080


def low(gauge):
    return min(read(gauge))
