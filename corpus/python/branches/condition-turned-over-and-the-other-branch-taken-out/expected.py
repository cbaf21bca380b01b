def configure(board):
    feeds = find_feeds("quay")
<<<<<<< ours
    if feeds:
        board.feeds["quay"] = next(iter(feeds))
        board.limits["quay"] = {}
    else:
=======
    if not feeds:
>>>>>>> theirs
        warn(
            "no feed of the quay is configured here",
            "the readings come from the tables instead",
            "try to install the feed of the quay",
        )
    if board.storm:
        board.feeds["quay"] = feeds["quay"]
        board.colour = "red"
