<<<<<<< ours
def convert(height, unit="m"):
=======
def convert(height, unit="m", digits=3):
>>>>>>> theirs
    return round(height * FACTORS[unit], 2)
