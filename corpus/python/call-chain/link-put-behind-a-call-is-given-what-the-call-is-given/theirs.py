def draw(day):
    shape = station.level(day, limits.high)
    return shape
