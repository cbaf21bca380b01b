def sync(box):
    # The clock drifts when it is cold.
    box.clock.sync("quay")
    box.log.rotate()
