def sync(box):
    box.log.rotate(keep=7)
