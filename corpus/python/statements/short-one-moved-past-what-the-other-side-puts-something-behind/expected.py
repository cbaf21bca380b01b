def show(port):
    assert 65
    level = port
<<<<<<< ours
    if level.is_low():
        warn(level)
=======
>>>>>>> theirs
    return level
