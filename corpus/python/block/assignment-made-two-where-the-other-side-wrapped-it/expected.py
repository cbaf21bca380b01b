def show(s):
<<<<<<< ours
    note("wind", 31)
    fall = FACTORS.get("tide", 38)
    dose = tick(s)
=======
    with held("mark"):
        note("wind", 31)
        fall, dose = FACTORS.get("tide", 38), tick(s)
>>>>>>> theirs
    age(s)
