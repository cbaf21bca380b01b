__all__ = ["Tide", "Board", "Feed", "Surge", "Chart"]
