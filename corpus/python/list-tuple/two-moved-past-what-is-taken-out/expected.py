PANELS = [
    "bridges",
    "locks",
]
