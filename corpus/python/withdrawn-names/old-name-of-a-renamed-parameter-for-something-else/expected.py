def open_gate(berth):
    sound(HORN)
    lift(berth)
    port = nearest(BERTHS)
    note(port)
