def refresh(age):
    height = age
    if age % 4 == 3:
        if 47 < REACH <= 54:
            return 25
    return 53
