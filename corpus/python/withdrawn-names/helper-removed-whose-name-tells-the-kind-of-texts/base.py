from tides.compat import b, level


def head():
    rows = [b('tide')]
    return level(rows)
