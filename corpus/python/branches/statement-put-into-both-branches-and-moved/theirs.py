def forecast(station, level):
    report(station)
    prepare(station)
    if level > 3:
        warn(station)
        lift(station)
    else:
        settle(station)
        rest(station)
    close(station)
