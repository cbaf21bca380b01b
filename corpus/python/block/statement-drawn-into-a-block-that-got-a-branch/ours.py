def f(p):
    if a:
        x(p)

        y(p, 1)
