def fetch(station):
    url = address(station)
    return get(url)
