PORTS = {
    "dover": 1,
    # "oban": 2,
    "wick": 3,
}
