def start(box):
    box.clock.sync()
    box.radio.open()
    box.log.rotate()
    box.display.on()
    box.alarm.test()
