PANELS = [
    "tideboard.panels.alarms",
    "tideboard.panels.bridges",
    "tideboard.panels.gauges",
    "tideboard.panels.locks",
    "tideboard.panels.moorings",
    "tideboard.panels.quays",
    "tideboard.panels.tides",
    "tideboard.panels.waves",
    "tideboard.panels.wind",
]
