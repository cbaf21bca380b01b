<<<<<<< ours
from harbour.sources import read_all
from tideboard.feeds import Gauge
=======
from tideboard.feeds import read_all
>>>>>>> theirs

rows = read_all()
