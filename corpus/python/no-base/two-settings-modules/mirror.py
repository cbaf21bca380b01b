"""Settings of the board."""

BOARD = {
    "port": "dover",
    "refresh": 60,
    "theme": "night",
}
