def show(station, days):
<<<<<<< ours
    return show_days(station, days)


def show_days(station, days):
=======
    levels = forecast(station, days)
>>>>>>> theirs
    for day in range(days):
        draw(station, day)
    mark(station, levels)
    return levels.high


def stations():
    return ["quay", "lock"]
