def sync(box):
    box.lamp.test()
    box.clock.sync()
    box.log.rotate()
