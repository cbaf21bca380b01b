box = Box()
box.open()
box.sync()
