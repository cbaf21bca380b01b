import math
from tide import (
    high,
    low,
)

limit = 1
