def start(box):
    box.clock.sync("quay")
    box.radio.open()
    box.log.rotate()
    box.display.on()
    box.alarm.test()
