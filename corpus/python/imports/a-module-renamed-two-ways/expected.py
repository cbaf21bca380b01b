<<<<<<< ours
from tideboard.tides import gauge
=======
from .tides import gauge
>>>>>>> theirs
