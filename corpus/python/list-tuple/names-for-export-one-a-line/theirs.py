__all__ = (
    "Tide",
    "Board",
    "Chart",
)
