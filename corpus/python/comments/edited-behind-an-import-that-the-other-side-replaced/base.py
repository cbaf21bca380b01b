import datetime  # noqa: F401
import gauges  # unused
from ports import Port  # noqa: F401
