def sync(box):
    # The clock drifts a second a day.
    with lock(box):
        box.clock.sync()
        for _ in range(3):
            box.log.rotate(depth=18)
