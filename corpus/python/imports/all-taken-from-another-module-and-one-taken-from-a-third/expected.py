from harbour.sources import Gauge
<<<<<<< ours
from harbour.sources import Station
=======
from tideboard.ports import Station
>>>>>>> theirs
from harbour.sources import read_all


def start():
    return read_all(Gauge(), Station())
