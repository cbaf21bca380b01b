class TideFeed(Feed, Cached, strict=True):
    retries = 3
