def a():
    with open(x) as f, open(y) as g:
        copy(f, g)
