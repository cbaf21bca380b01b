ALERTS = {
    "surge": 1,
    # Above force eight.
    "gale": 2,
}
