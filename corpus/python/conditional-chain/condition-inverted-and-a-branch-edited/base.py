def f(k):
    if is_a(k):
        return a(k)
    else:
        return b(k)
