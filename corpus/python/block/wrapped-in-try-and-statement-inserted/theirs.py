def load(url):
    payload = get(url)
    payload = payload.strip()
    tides = parse(payload)
    return tides
