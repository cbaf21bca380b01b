def run(*args):
    status = execute(*args, verbose=True, check=False)
    return status
