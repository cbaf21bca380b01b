def f(x):
    if x:
        return 1
    y = g(x)
    return y
