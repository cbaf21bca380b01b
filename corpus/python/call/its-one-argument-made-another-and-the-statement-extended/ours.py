def load(path):
    try:
        return read(path)
    except OSError as e:
        raise TideError(path) from e
