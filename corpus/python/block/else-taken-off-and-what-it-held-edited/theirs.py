def f(x):
    if x:
        return 1
    else:
        y = g(x, 2)
        return y + 1
