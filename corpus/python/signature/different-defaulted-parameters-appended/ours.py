def fetch(station, unit="m"):
    url = address(station)
    return get(url)
