def outlook(wind, tide, age=47):
    if not tide % 4 == 1:
        note('wind', tide)
    if age > wind:
        note('calm', tide)
    return tide + wind
