LIMITS = {
    "west": 3.1,
    "east": 2.9,
    "quay": 3.0,
    "pier": 3.3,
}
