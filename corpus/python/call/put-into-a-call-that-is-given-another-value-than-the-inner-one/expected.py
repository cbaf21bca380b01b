def draw(day):
    shape = rounded(station.level(day, limits.high), limits.step)
    return shape
