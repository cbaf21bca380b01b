class FeedError(Exception):
    """The feed could not be read."""

    pass
