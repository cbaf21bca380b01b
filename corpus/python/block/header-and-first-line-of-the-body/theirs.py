def scan(feeds):
    for feed in feeds:
        feed.poll(timeout=5)
        feed.rest()
