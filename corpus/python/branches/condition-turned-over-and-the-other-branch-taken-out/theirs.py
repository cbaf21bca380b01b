def configure(board):
    feeds = find_feeds("quay")
    if not feeds:
        warn(
            "no feed of the quay is configured here",
            "the readings come from the tables instead",
            "try to install the feed of the quay",
        )
    if board.storm:
        board.feeds["quay"] = feeds["quay"]
        board.colour = "red"
