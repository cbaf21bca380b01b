<<<<<<< ours
from tideboard.feeds import read_all
=======
from harbour.sources import read_all
from tideboard.feeds import Gauge
>>>>>>> theirs

rows = read_all()
