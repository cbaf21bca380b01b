from __future__ import annotations

import tides
