PORTS = [
    "west",
    "east",
    "pier",
    "quay",
]
