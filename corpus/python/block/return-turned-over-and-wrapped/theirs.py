def level(s):
    with lock:
        if s.open:
            return 1
    return 0
