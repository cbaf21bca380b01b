def poll(feed):
    try:
        return feed.read()
    except TimeoutError:
        return feed.last
