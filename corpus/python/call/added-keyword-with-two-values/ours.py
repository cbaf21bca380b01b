feed = Feed(
    url,
    timeout=5,
)
feed.start()
