panels = [
    Panel("tides", rows=12, style={"colour": "navy"}),
    Panel("wind", style={"colour": "grey", "dash": True}),
]
