feed = Feed(
    url,
    timeout=5,  # seconds
    unit="m",  # metres
    retries=2,
)
