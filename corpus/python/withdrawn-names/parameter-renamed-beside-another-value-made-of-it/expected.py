def open_gate(berth):
    sound(HORN)
    lift(berth)
<<<<<<< ours
    port = nearest(port)
    note(port)
=======
>>>>>>> theirs
