def level(s):
    log(s)
    if s.open:
        return 1
    return 0
