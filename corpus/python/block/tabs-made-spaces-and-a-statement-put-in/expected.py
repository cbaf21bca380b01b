def f(a):
    for b in a:
        x(b)
        y(b)
    return a
