def level(s, t):
    log(s, 3)
    if s.open:
        return 1
    return 0
