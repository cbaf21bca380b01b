def sync(box):
    # The clock drifts two seconds a day.
    box.clock.sync()
    box.log.rotate()
