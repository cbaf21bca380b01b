"""The tides of the harbour."""
# Every chart relies on these.
from tideboard.units import *
CHARTS = (units.CHARTS +
          gauges.CHARTS)
