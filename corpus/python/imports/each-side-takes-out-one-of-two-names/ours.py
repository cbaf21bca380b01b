import math
from tide import (
    low,
)

limit = 1
