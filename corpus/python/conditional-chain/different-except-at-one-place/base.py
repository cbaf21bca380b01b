def poll(feed):
    try:
        return feed.read()
    finally:
        feed.close()
