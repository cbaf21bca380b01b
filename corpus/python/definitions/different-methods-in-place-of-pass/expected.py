class FeedError(Exception):
    """The feed could not be read."""

    def retryable(self):
        return True

    def __str__(self):
        return self.args[0].lower()
