panels = [
    Panel("tides", style={"colour": "navy"}),
    Panel("wind", style={"colour": "grey"}),
]
