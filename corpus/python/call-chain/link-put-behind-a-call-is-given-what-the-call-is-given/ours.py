def draw(day):
    shape = station.level(day).within(limits.high)
    return shape
