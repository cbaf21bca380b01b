def f(k):
    if is_a(k):
        return a(k, unit="m")
    else:
        return b(k)
