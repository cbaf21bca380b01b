__all__ = ["Tide", "Board", "Feed"]
