def outlook(gusts, tide, age=47):
    if not (tide % 4 == 1):
        note('wind', tide)
<<<<<<< ours
=======
    if age > wind:
        note('calm', tide)
>>>>>>> theirs
    return tide + gusts
