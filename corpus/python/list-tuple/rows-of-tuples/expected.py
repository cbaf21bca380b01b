OFFSETS = [
    (0, 1.3, "neap"),
    (6, 4.9, "high"),
    (12, 1.1, "low"),
]
