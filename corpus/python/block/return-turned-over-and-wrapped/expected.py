def level(s):
<<<<<<< ours
    if not s.open:
        return 0
    return 1
=======
    with lock:
        if s.open:
            return 1
    return 0
>>>>>>> theirs
