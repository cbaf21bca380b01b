def fetch(station, day):
    url = address(station)
    return get(url)
