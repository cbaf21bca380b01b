PANELS = [
    "bridges",
    "alarms",
    "quays",
    "tides",
    "locks",
]
