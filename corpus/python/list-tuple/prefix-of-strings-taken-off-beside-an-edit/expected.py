TITLES = [
    "west",
    "east pier",
    "north",
]
