def refresh(age):
    height = age
    if 47 < REACH <= 54:
        return 25
    else:
        return 53
