def load(path):
    try:
        return read(path)
    except OSError as e:
        raise TideError(f"cannot read {path}") from e
