ALERTS = {
    "surge": 1,
    # Above force eight.
    "gale": 2,
    # Below ten metres.
    "fog": 3,
}
