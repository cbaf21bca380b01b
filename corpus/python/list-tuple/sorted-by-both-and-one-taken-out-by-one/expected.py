PANELS = [
    "alarms",
    "gauges",
    "quays",
    "tides",
    "waves",
]
