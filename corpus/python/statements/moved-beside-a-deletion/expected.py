def poll(feed):
    # The gauge answers late.
    feed.open()
