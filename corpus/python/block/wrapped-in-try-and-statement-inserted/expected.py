def load(url):
    try:
        payload = get(url)
        payload = payload.strip()
        tides = parse(payload)
    except FeedError as error:
        log.warning("no feed: %s", error)
        return []
    return tides
