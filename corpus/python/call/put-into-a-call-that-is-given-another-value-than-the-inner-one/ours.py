def draw(day):
    shape = rounded(station.level(day), limits.step)
    return shape
