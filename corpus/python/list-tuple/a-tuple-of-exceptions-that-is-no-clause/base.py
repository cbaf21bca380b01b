failures = (OSError, ValueError)
