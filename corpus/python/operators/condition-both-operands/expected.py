def risky(level, wind):
<<<<<<< ours
    if level > 5 and wind > 6:
=======
    if level > 4 and wind >= 8:
>>>>>>> theirs
        alarm()
        return True
    return False
