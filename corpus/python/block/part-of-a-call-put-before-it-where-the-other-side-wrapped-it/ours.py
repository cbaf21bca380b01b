def show(s):
    ticks = tick(s)
    note("wind", mix(ticks, 3))
    age(s)
