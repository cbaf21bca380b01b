def level(s):
    if s.open:
        log(s)
        return 1
    return 0
