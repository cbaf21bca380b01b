def risky(level, wind):
    if level > 5 and wind > 6:
        return True
    return False
