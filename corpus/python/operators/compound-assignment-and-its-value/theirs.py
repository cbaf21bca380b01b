def a():
    level += 3
