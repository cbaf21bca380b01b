def show(s):
<<<<<<< ours
    ticks = tick(s)
    note("wind", mix(ticks, 3))
=======
    for gauge in s.gauges:
        note("wind", mix(tick(s), 3))
>>>>>>> theirs
    age(s)
