"""Settings of the board."""

BOARD = {
    "port": "dover",
    "theme": "night",
}
