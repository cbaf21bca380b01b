STATIONS = [
    Station("west", 50.1, -5.2),
    Station("east", 50.4, -4.1),
    Station("pier", 50.3, -4.2),
]
