def start(box):
    box.clock.sync()
    box.display.on(brightness=80)
    box.alarm.test()
