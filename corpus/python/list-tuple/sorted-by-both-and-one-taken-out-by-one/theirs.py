PANELS = [
    "alarms",
    "gauges",
    "tides",
    "waves",
]
