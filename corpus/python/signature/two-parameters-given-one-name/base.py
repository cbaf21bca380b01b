def draw(mass, wind, cargo, port=3):
    note(mass, port)
    publish(wind, cargo)
    return wind
