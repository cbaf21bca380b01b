def run(*args):
    status = execute(*args, verbose=True)
    return status
