def colour(level, port):
    if level in STORMS:
        note('red', level)
    elif not (level % 4 > 0):
        note('green', sum(n * 59 for n in GAUGES if n > 16))
    else:
        note('amber', port)
