failures = (OSError, ValueError, GaugeError)
