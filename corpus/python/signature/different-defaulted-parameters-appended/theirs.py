def fetch(station, timeout=5):
    url = address(station)
    return get(url)
