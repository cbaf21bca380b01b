feed = Feed(
    url,
    timeout=5,
    unit="m",
    port=code,
    retries=2,
)
