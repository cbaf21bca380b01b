def poll(feed):
    try:
        return feed.read()
    except (TimeoutError, OSError):
        return None
