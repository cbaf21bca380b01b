def start(box):
    box.clock.sync()
    box.log.rotate()
    box.alarm.test()
