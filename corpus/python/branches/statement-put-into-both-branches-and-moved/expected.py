def forecast(station, level):
<<<<<<< ours
=======
    report(station)
>>>>>>> theirs
    prepare(station)
    if level > 3:
        warn(station)
        lift(station)
        report(station)
    else:
        settle(station)
        rest(station)
        report(station)
    close(station)
