PORTS = {
    "dover": 10,
    "oban": 2,
    "wick": 30,
}
