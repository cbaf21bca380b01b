BANNER = banner("high")
PORT = 8080


def low(gauge):
    return round(read(gauge))
