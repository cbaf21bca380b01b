def sync(box):
    # The clock drifts a second a day.
    with lock(box):
        box.clock.sync()
        box.log.rotate()
