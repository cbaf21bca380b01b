try:
    level = gauge.read_now()
<<<<<<< ours
except (ValueError, OSError, GaugeError):
=======
except (OSError):
>>>>>>> theirs
    level = gauge.last_now()
