def level(s):
    if s.open:
        return 5
    return 0
