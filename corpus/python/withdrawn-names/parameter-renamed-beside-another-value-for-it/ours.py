def open_gate(port):
    sound(HORN)
    port = nearest(BERTHS)
    lift(port)
