ALERTS = {
    "surge": 1,
    # Below ten metres.
    "fog": 3,
    # Above force eight.
    "gale": 2,
}
