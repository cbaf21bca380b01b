class TideFeed(Feed, strict=True):
    retries = 3
