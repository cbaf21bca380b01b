def f(p):
    if a:
        x(p)

        y(p, 2)
    elif b:
        w(p)
