def sync(box):
<<<<<<< ours
    # The clock drifts two seconds a day.
=======
    # The clock drifts when it is cold.
>>>>>>> theirs
    box.clock.sync("quay")
    box.log.rotate()
