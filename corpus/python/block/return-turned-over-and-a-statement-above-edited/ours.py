def level(s):
    log(s)
    if not s.open:
        return 0
    return 1
