def load(url):
    payload = get(url)
    tides = parse(payload)
    return tides
