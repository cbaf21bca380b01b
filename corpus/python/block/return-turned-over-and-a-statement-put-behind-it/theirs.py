def level(s):
    if s.open:
        return 1
    log(s)
    return 0
