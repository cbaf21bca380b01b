__all__ = (
    "Tide",
    "Board",
)
