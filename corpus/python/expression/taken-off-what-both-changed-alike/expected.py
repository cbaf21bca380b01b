def is_tide(path):
    if path.startswith("tide/"):
        return True
    return False
