import datetime  # noqa: F401
import gauges  # noqa: F401
from ports import Port  # noqa: F401
