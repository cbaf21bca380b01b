STATIONS = [
    "dover",
    "wick",
    "leith",
]
