def draw(given, wind, cargo, port=4):
    note(given, port)
    publish(wind, cargo)
    return wind
