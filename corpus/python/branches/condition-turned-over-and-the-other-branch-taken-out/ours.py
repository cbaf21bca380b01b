def configure(board):
    feeds = find_feeds("quay")
    if feeds:
        board.feeds["quay"] = next(iter(feeds))
        board.limits["quay"] = {}
    else:
        warn(
            "no feed of the quay is configured here",
            "the readings come from the model instead",
            "try to install the feed of the quay",
        )
    if board.storm:
        board.colour = "red"
