@retry.twice
def level(port, unit="m"):
    return port.read(unit)
