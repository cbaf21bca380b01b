LIMITS = {
    "west": 3.1,
    "east": 2.9,
    "pier": 3.3,
}
