# fmt: off
OFFSETS = [
    ( 0,  1),
    ( 6,  5),
    (12, 10),
]
# fmt: on
