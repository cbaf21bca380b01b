def run(*args):
    status = execute("tideboard", *args, verbose=True)
    return status
