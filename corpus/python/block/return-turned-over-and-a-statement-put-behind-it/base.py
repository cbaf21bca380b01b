def level(s):
    if s.open:
        return 1
    return 0
