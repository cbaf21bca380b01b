ALERTS = {
    "surge": 1,
}
