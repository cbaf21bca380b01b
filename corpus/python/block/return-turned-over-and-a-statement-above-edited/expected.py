def level(s, t):
    log(s, 3)
    if not s.open:
        return 0
    return 1
