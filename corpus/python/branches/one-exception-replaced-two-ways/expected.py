try:
    level = gauge.read()
<<<<<<< ours
except (OSError, gauges.errors.read.Broken):
=======
except (OSError, gauges.errors.read.Failure):
>>>>>>> theirs
    level = gauge.last()
