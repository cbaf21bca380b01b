def scan(feeds, log):
    for feed in feeds:
        log(feed)
        feed.poll(wait=5)
        feed.rest()
