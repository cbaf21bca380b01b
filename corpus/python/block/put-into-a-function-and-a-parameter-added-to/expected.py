def forecast(station, level):
    def run():
        start(station)
<<<<<<< ours
=======
        level += OFFSET
>>>>>>> theirs
        show(station, level)
        log(station, level)
        return level

    return retry(run)
