ALERTS = {
    "surge": 1,
    # Below ten metres.
    "fog": 3,
}
