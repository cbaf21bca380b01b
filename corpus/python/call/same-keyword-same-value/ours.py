feed = Feed("dover", timeout=5)
feed.start()
