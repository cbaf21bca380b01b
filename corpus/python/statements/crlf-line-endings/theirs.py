box = Box()
box.open()
box.sync(force=True)
