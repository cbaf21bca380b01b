panels = [
    Panel("tides", rows=12, style={"colour": "navy", "width": 2}),
    Panel("wind", style={"colour": "grey", "dash": True}),
]
