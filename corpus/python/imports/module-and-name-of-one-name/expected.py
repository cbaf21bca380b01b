import os
<<<<<<< ours
import almanac
=======
from tideboard import almanac
>>>>>>> theirs

LEVEL = 1
