feed = Feed(
    url,
    unit="m",
    port=code,
    retries=2,
)
