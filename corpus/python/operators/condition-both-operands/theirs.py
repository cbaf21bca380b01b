def risky(level, wind):
    if level > 4 and wind >= 8:
        alarm()
        return True
    return False
