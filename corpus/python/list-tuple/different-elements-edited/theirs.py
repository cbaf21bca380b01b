STATIONS = [
    "dover",
    "wick-harbour",
]
