PANELS = [
    "bridges",
    "locks",
    "quays",
    "tides",
]
