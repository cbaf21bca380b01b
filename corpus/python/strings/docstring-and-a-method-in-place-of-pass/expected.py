class TideError(Exception):
    """Base of errors."""
    def __init__(self, code):
        self.code = code
