from tideboard import feeds


def latest(station):
    tide = feeds.fetch(station, unit="m", timeout=5)
    return tide.height
