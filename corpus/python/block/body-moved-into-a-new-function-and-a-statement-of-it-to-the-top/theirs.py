def show(station, days):
    levels = forecast(station, days)
    for day in range(days):
        draw(station, day)
    mark(station, levels)
    return levels.high


def stations():
    return ["quay", "lock"]
