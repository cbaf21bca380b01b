def fetch(station, unit="m", timeout=5):
    url = address(station)
    return get(url)
