def poll(feed):
    try:
        return feed.read(limit=9)
    except FeedError:
        feed.reset()
        raise
    except TimeoutError:
        return None
