import math
from tide import (
    high,
)

limit = 1
