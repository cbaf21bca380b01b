box = Box()
box.open(wait=1)
box.sync()
