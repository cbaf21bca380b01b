def run(*args):
    status = execute("tideboard", *args, verbose=True, check=False)
    return status
