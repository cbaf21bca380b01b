while feed.open and not stop and feed.ready:
    feed.poll()
