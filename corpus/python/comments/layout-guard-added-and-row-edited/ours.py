# fmt: off
OFFSETS = [
    ( 0,  1),
    ( 6,  4),
    (12, 10),
]
# fmt: on
