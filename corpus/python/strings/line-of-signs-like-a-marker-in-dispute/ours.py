BANNER = """\
Tides
=======
"""
PORT = 8080


def low(gauge):
    return min(read(gauge, unit="ft"))
