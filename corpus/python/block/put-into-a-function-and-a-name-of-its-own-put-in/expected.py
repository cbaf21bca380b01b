def forecast(station, level):
    def run():
        start(station)
        text = label(level)
        show(station, text)
        log(station, level)
        return level

    return retry(run)
