from tideboard import feeds


def latest(station):
    tide = feeds.fetch(station, unit="m")
    return tide.height
