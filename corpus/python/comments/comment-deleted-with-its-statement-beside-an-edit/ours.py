def sync(box):
    box.log.rotate()
