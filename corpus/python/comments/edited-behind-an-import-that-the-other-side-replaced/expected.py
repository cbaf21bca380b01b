import datetime  # noqa: F401
from readings import Reading  # noqa: F401
from ports import Port  # noqa: F401
