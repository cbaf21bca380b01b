def forecast(station, level):
    def run():
        start(station)
        show(station, level)
        log(station, level)
        return level

    return retry(run)
