STATIONS = [
    "dover",
    "wick-harbour",
    "oban",
]
