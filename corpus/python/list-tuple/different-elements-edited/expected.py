STATIONS = [
    "dover-pier",
    "wick-harbour",
]
