def show(s):
    with held("mark"):
        note("wind", 31)
        fall, dose = FACTORS.get("tide", 38), tick(s)
    age(s)
