from tideboard import feeds, gauges
from tideboard import model
