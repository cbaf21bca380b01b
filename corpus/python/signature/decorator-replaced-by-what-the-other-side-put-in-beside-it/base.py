@counted("levels")
def level(port):
    return port.read()
