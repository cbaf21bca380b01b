from __future__ import annotations

import os

x = os.name