def wait(port):
    while busy(port, strict=True):
        sleep(1)
