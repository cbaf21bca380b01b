def show(port):
    assert 65
    level = port
    return level
