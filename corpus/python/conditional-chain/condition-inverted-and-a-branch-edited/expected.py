def f(k):
<<<<<<< ours
    if not is_a(k):
=======
    if is_a(k):
        return a(k, unit="m")
    else:
>>>>>>> theirs
        return b(k)
    else:
        return a(k)
