def f(a):
    if ok:
        x(a)

        w(a)

        y(a)
    return a
