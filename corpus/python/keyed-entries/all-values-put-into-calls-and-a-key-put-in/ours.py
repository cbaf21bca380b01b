LIMITS = {
    "west": Decimal("3.1"),
    "east": Decimal("2.9"),
    "pier": Decimal("3.3"),
}
