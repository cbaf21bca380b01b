<<<<<<< ours
from tideboard import Port
=======
from tideboard.feeds import Gauge
>>>>>>> theirs

rows = 1
