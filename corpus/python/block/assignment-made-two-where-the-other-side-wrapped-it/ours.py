def show(s):
    note("wind", 31)
    fall = FACTORS.get("tide", 38)
    dose = tick(s)
    age(s)
