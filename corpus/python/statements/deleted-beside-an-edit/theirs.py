def start(box):
    box.clock.sync()
    box.log.rotate()
    box.display.on(brightness=80)
    box.alarm.test()
