def poll(feed):
    try:
        return feed.read(limit=9)
    except TimeoutError:
        return None
