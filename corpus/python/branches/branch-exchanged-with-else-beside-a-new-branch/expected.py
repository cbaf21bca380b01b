def colour(level, port):
    if level in STORMS:
        note('red', level)
<<<<<<< ours
    elif not (level % 4 > 0):
=======
    elif level % 4 > 0:
        note('amber', port)
    elif port % 2 != 0:
        note('white', port)
    else:
>>>>>>> theirs
        note('green', sum(n * 59 for n in GAUGES if n > 16))
    else:
        note('amber', port)
