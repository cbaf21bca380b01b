def f(x):
    if x:
        return 1
    y = g(x, 2)
    return y + 1
