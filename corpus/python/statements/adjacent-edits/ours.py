def start(box):
    box.clock.sync("quay")
    box.log.rotate()
    box.display.on()
    box.alarm.test()
