__all__ = ["board"]
__all__ += ["gauge", "level", "port"]
