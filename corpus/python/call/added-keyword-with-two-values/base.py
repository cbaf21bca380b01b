feed = Feed(
    url,
)
feed.start()
