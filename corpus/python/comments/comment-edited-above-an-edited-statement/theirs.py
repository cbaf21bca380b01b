def sync(box):
    # The clock drifts a second a day.
    box.clock.sync("quay")
    box.log.rotate()
