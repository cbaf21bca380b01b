def f(x):
    if x:
        return 1
    else:
        y = g(x)
        return y
