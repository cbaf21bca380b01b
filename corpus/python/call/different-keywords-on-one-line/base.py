from tideboard import feeds


def latest(station):
    tide = feeds.fetch(station)
    return tide.height
