def refresh(age):
    height = age
<<<<<<< ours
    if 47 < REACH <= 54:
        return 25
    else:
        return 53
=======
    if age % 4 == 3:
        if 47 < REACH <= 54:
            return 25
    return 53
>>>>>>> theirs
