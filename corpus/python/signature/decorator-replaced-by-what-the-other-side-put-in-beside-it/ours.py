@counted("levels")
@retry.twice
def level(port):
    return port.read()
