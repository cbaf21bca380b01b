PANELS = [
    "wind",
    "tides",
    "gauges",
    "waves",
]
