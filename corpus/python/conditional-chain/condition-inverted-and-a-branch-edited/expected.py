def f(k):
    if not is_a(k):
        return b(k)
    else:
        return a(k, unit="m")
