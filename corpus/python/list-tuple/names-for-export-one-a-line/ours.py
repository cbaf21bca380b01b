__all__ = (
    "Tide",
    "Board",
    "Surge",
)
