feed = Feed("dover", retries=2, timeout=5)
feed.start()
