def wait(port):
    while busy(port):
        sleep(1)
