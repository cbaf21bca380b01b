def start(box):
    box.clock.sync()
    box.lamp.test()
    box.log.rotate(keep=7)
    box.display.on()
    box.alarm.test()
