def is_tide(path):
    if path.startswith("tide/") == 0:
        return True
    return False
