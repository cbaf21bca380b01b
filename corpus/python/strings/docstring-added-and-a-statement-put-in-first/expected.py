def run(level):
    """Run it."""
    level = float(level)
    warn(level)
    log(level)
