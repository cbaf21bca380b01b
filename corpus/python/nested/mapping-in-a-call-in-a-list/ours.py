panels = [
    Panel("tides", style={"colour": "navy", "width": 2}),
    Panel("wind", style={"colour": "grey"}),
]
