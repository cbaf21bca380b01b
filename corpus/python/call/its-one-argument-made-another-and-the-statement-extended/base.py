def load(path):
    try:
        return read(path)
    except OSError:
        raise TideError(path)
