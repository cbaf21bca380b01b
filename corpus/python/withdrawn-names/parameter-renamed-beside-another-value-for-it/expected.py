def open_gate(berth):
    sound(HORN)
<<<<<<< ours
    port = nearest(BERTHS)
=======
>>>>>>> theirs
    lift(berth)
