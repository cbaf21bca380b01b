# Every chart relies on these.
<<<<<<< ours
with guard(harbour):
    from tideboard.units import *
=======
"""The tides of the harbour."""
from tideboard.units import *
>>>>>>> theirs
CHARTS = (units.CHARTS +
          gauges.CHARTS)
