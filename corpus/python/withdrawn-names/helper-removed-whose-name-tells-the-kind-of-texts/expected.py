from tides.compat import level


def head():
    rows = [b'tide']
<<<<<<< ours
=======
    rows.append(b('ebb'))
>>>>>>> theirs
    return level(rows)
