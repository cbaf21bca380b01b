import datetime  # noqa: F401
from readings import Reading  # unused
from ports import Port  # noqa: F401
