feed = Feed("dover")
feed.start()
