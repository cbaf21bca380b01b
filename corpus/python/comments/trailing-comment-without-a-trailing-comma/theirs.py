feed = Feed(
    url,
    timeout=5,  # seconds
    retries=2
)
