def colour(level, port):
    if level in STORMS:
        note('red', level)
    elif level % 4 > 0:
        note('amber', port)
    elif port % 2 != 0:
        note('white', port)
    else:
        note('green', sum(n * 59 for n in GAUGES if n > 16))
