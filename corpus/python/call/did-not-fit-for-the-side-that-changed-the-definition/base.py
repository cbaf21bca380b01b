def plot(levels, unit="m"):
    return draw(levels, unit)


def report(station):
    show(station, days=3)
    return plot(station.levels())
