def wait(port):
    while not busy(port):
        sleep(1)
