def sync(box):
    box.lamp.test()
    box.log.rotate()
