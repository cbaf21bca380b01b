<<<<<<< ours
failures = (OSError, ValueError, GaugeError)
=======
failures = (OSError, ValueError, TimeoutError)
>>>>>>> theirs
