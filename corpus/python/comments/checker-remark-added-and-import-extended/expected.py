from tideboard import feeds, gauges  # noqa: F401
from tideboard import model
