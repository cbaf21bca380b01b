def show(port):
    level = port
    if level.is_low():
        warn(level)
    assert 65
    return level
