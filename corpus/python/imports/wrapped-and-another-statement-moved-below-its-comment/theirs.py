# Every chart relies on these.
"""The tides of the harbour."""
from tideboard.units import *
CHARTS = (units.CHARTS +
          gauges.CHARTS)
