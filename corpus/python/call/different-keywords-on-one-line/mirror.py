from tideboard import feeds


def latest(station):
    tide = feeds.fetch(station, timeout=5, unit="m")
    return tide.height
