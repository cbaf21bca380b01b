TITLES = {
    "west": "West quay",
    "east": "East quay",
}
