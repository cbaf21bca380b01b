def a():
    level -= 2
