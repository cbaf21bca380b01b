def f(p):
    if a:
        x(p)
    elif b:
        w(p)

    y(p, 2)
