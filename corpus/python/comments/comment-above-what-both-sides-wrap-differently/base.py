def sync(box):
    # The clock drifts a second a day.
    box.clock.sync()
    box.log.rotate()
