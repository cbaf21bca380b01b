def show(s):
    note("wind", mix(tick(s), 3))
    log(s)
    age(s)
