UNITS = ["metre", "foot"]
MARKS = [
    "metre",
]
