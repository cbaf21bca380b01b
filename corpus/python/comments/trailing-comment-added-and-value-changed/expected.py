feed = Feed(
    url,
    timeout=8,  # seconds
)
