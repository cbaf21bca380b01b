OFFSETS = [
    (0, 1.2, "low"),
    (6, 4.8, "high"),
    (12, 1.1, "low"),
]
