def show(port):
    level = port
    assert 65
    return level
