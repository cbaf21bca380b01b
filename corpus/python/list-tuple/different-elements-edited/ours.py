STATIONS = [
    "dover-pier",
    "wick",
]
