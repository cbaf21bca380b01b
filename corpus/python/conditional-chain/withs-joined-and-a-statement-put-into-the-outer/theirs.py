def a():
    with open(x) as f:
        check(f)
        with open(y) as g:
            copy(f, g)
