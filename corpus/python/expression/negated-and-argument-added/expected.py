def wait(port):
    while not busy(port, strict=True):
        sleep(1)
