def show(s):
    note("wind", mix(tick(s), 3))
    age(s)
