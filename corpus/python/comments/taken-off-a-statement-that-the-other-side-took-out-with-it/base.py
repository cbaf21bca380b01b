def sync(box):
    box.lamp.test()
    # The clock drifts a second a day.
    box.clock.sync()
    box.log.rotate()
