def poll(feed):
    try:
        return feed.read()
    except TimeoutError:
        return Missing(feed.port)
    finally:
        feed.close()
