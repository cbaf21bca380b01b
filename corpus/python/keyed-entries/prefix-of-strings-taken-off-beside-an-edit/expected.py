TITLES = {
    "west": "West quay",
    "east": "East pier",
    u"north": u"North mole",
}
