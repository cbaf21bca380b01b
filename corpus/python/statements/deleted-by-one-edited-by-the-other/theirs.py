def start(box):
    box.clock.sync()
    box.log.rotate(keep=7)
    box.display.on(brightness=80)
    box.alarm.test()
