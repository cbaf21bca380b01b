def open_gate(port):
    sound(HORN)
    lift(port)
    port = nearest(BERTHS)
    note(port)
