class TideFeed(Feed, Cached):
    retries = 3
