def poll(feed):
    try:
        return feed.read()
    except FeedError:
        feed.reset()
        raise
    except TimeoutError:
        return None
