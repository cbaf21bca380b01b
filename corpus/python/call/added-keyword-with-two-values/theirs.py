feed = Feed(
    url,
    timeout=9,
    retries=2,
)
feed.start()
