try:
    from tideboard import gauges
    HAVE_GAUGES = True
except ImportError:
    gauges = None
    HAVE_GAUGES = False

from tideboard.quay import berths
from tideboard.quay import buoys as marks
from tideboard.quay import cranes


class Board:
    pass
