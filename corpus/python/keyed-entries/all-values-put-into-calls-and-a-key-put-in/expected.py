LIMITS = {
    "west": Decimal("3.1"),
    "east": Decimal("2.9"),
<<<<<<< ours
=======
    "quay": 3.0,
>>>>>>> theirs
    "pier": Decimal("3.3"),
}
