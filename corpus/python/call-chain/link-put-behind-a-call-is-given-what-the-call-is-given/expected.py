def draw(day):
<<<<<<< ours
    shape = station.level(day).within(limits.high)
=======
    shape = station.level(day, limits.high)
>>>>>>> theirs
    return shape
