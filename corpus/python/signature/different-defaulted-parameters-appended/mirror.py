def fetch(station, timeout=5, unit="m"):
    url = address(station)
    return get(url)
