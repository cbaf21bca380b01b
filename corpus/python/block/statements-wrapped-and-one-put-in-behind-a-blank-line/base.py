def f(a):
    x(a)

    y(a)
    return a
