class FeedError(Exception):
    """The feed could not be read."""

    def retryable(self):
        return True
