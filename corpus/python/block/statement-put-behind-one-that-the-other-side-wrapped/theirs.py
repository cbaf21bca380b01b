def show(s):
    if s.open:
        note("wind", mix(tick(s), 3))
    age(s)
