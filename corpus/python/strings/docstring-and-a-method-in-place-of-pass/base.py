class TideError(Exception):
    pass
