def risky(level, wind):
    if level > 4 and wind > 6:
        return True
    return False
