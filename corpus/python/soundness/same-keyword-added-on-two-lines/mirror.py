feed = Feed(
    url,
    unit="m",
    port=code,
    retries=2,
    timeout=5,
)
