class TideFeed(Feed):
    retries = 3
