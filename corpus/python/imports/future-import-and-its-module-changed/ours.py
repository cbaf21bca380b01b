from .compat import annotations

import tides
