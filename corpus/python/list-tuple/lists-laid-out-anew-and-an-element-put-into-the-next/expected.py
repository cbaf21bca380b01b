UNITS = ["metre"]
MARKS = [
    "metre",
    "foot",
]
