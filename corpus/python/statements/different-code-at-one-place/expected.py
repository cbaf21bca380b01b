def start(box):
    box.clock.sync("quay")
<<<<<<< ours
    box.radio.open()
=======
    box.lamp.test()
>>>>>>> theirs
    box.log.rotate(keep=7)
    box.display.on()
    box.alarm.test()
