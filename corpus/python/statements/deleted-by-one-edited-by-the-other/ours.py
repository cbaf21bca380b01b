def start(box):
    box.clock.sync()
    box.display.on()
    box.alarm.test()
