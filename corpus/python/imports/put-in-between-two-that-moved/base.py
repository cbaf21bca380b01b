from tideboard.quay import berths
from tideboard.quay import cranes

try:
    from tideboard import gauges
    HAVE_GAUGES = True
except ImportError:
    gauges = None
    HAVE_GAUGES = False


class Board:
    pass
