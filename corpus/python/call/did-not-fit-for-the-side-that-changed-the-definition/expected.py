def plot(levels, width, unit="m"):
    return draw(levels, unit)


def report(station):
    show(station, days=7, quay=True)
    return plot(station.tides())
