def poll(feed):
    show(feed, units)
    feed.open()
