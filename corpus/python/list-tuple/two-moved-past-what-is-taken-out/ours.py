PANELS = [
    "alarms",
    "bridges",
    "locks",
]
