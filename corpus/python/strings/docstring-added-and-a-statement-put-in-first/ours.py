def run(level):
    """Run it."""
    warn(level)
    log(level)
