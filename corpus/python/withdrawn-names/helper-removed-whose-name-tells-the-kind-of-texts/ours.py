from tides.compat import level


def head():
    rows = [b'tide']
    return level(rows)
