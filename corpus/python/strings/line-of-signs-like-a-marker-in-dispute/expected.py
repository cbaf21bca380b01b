<<<<<<< ours
BANNER = """\
Tides
=======
"""
=======
BANNER = banner("high")
>>>>>>> theirs
PORT = 8080


def low(gauge):
    return round(read(gauge, unit="ft"))
