PORTS = [
    "west",
    'east-quay',
    "pier",
    "quay",
    'lock',
]
