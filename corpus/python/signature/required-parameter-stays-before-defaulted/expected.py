def fetch(station, day, unit="m"):
    url = address(station)
    return get(url)
