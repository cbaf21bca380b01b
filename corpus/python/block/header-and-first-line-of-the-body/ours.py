def scan(feeds):
    for feed in list(feeds):
        feed.poll()
        feed.rest()
