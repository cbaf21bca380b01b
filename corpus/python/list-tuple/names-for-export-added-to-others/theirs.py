__all__ = ["board"]
__all__ += ["chart", "gauge", "level"]
