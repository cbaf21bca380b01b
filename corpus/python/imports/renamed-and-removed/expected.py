<<<<<<< ours
from tideboard import charts as plots, feeds, ports
=======
from tideboard import feeds, ports
>>>>>>> theirs

feeds.start()
