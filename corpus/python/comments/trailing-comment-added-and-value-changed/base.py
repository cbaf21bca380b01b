feed = Feed(
    url,
    timeout=5,
)
