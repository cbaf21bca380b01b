def start(box):
    box.clock.sync()
    box.log.rotate()
    box.display.on()
    box.alarm.test()
