def show(s):
    for gauge in s.gauges:
        note("wind", mix(tick(s), 3))
    age(s)
