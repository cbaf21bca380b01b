from __future__ import division

import tides
