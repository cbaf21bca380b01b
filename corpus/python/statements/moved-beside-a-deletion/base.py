def poll(feed):
    feed.open()
    show(feed, units)
