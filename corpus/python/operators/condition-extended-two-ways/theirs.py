while feed.open and not stop and clock.running:
    feed.poll()
