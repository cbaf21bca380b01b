STATIONS = [
    "dover",
    "wick",
]
