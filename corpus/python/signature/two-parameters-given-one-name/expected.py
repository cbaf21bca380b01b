<<<<<<< ours
def draw(mass, given, cargo, port=3):
    note(mass, port)
    publish(given, cargo)
    return given
=======
def draw(given, wind, cargo, port=4):
    note(given, port)
    publish(wind, cargo)
    return wind
>>>>>>> theirs
