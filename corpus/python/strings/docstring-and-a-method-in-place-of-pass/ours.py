class TideError(Exception):
    """Base of errors."""
