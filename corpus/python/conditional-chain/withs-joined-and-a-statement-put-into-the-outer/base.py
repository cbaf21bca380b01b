def a():
    with open(x) as f:
        with open(y) as g:
            copy(f, g)
