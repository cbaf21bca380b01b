failures = (OSError, ValueError, TimeoutError)
