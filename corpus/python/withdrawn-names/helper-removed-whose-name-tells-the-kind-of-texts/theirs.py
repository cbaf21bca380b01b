from tides.compat import b, level


def head():
    rows = [b('tide')]
    rows.append(b('ebb'))
    return level(rows)
