def open_gate(port):
    sound(HORN)
    lift(port)
    port = nearest(port)
    note(port)
