def scan(feeds):
    for feed in feeds:
        feed.poll()
        feed.rest()
