def poll(feed):
    try:
        return feed.read(limit=9)
    except OSError:
        feed.reset()
    finally:
        feed.close()
