def show(station, days):
    return show_days(station, days)


def show_days(station, days):
    for day in range(days):
        draw(station, day)
    levels = forecast(station, days)
    mark(station, levels)
    return levels.high


def stations():
    return ["quay", "lock"]
