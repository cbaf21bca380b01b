def open_gate(berth):
    sound(HORN)
    lift(berth)
