def start(box):
    box.clock.sync()
    box.alarm.test()
