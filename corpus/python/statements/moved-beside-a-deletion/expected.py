def poll(feed):
<<<<<<< ours
    show(feed, units)
=======
>>>>>>> theirs
    # The gauge answers late.
    feed.open()
