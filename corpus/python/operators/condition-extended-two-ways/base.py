while feed.open and not stop:
    feed.poll()
