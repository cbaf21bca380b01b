def f(a):
    x(a)

    w(a)

    y(a)
    return a
