from tideboard import feeds  # noqa: F401
from tideboard import model
