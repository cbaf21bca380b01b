def scan(feeds, log):
    for feed in feeds:
        feed.poll(wait=2)
        feed.rest()
