def load(url):
    try:
        payload = get(url)
        tides = parse(payload)
    except FeedError as error:
        log.warning("no feed: %s", error)
        return []
    return tides
