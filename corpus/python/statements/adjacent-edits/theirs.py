def start(box):
    box.clock.sync()
    box.log.rotate(keep=7)
    box.display.on()
    box.alarm.test()
