def scan(feeds):
    for feed in list(feeds):
        feed.poll(timeout=5)
        feed.rest()
