def forecast(station, level):
    prepare(station)
    if level > 3:
        warn(station)
        lift(station)
    else:
        settle(station)
        rest(station)
    report(station)
    close(station)
