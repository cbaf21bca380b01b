<<<<<<< ours
from tideboard.feeds import Gauge
=======
from tideboard import Port
>>>>>>> theirs

rows = 1
