def draw(day):
    shape = station.level(day)
    return shape
