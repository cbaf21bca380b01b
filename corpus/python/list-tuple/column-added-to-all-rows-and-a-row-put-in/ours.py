STATIONS = [
    ("west", 50.1, -5.2, "LAT"),
    ("east", 50.4, -4.1, "LAT"),
    ("pier", 50.3, -4.2, "MSL"),
]
