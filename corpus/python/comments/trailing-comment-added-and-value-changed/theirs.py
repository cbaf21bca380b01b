feed = Feed(
    url,
    timeout=8,
)
