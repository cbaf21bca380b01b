TITLES = [
    "west",
    "east",
    "north",
]
