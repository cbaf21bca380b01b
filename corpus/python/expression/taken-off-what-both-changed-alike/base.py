def is_tide(path):
    if path.find("tide/") == 0:
        return True
    return False
