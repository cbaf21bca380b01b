<<<<<<< ours
from .compat import annotations
=======
from __future__ import division
>>>>>>> theirs

import tides
