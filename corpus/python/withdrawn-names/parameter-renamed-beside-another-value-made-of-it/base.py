def open_gate(port):
    sound(HORN)
    lift(port)
