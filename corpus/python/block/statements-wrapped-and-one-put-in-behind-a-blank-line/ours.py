def f(a):
    if ok:
        x(a)

        y(a)
    return a
