def sync(box):
    # The clock drifts two seconds a day.
    box.clock.sync("quay")
    box.log.rotate()
