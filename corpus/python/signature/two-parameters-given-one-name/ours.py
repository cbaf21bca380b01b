def draw(mass, given, cargo, port=3):
    note(mass, port)
    publish(given, cargo)
    return given
