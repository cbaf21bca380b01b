def forecast(station, level):
    def run():
        start(station)
<<<<<<< ours
=======
        level = round(level, 2)
>>>>>>> theirs
        show(station, level)
        log(station, level)
        return level

    return retry(run)
