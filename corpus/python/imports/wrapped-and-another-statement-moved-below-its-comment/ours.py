"""The tides of the harbour."""
# Every chart relies on these.
with guard(harbour):
    from tideboard.units import *
CHARTS = (units.CHARTS +
          gauges.CHARTS)
