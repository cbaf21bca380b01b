feed = Feed(
    url,
    timeout=5,  # seconds
    unit="m",
    retries=2
)
