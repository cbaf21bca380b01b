feed = Feed(
    url,
    timeout=5  # seconds
)
