def start(box):
    box.clock.sync()
<<<<<<< ours
=======
    box.log.rotate(keep=7)
>>>>>>> theirs
    box.display.on(brightness=80)
    box.alarm.test()
