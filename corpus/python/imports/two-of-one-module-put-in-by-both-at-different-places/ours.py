import math
from moor import read
from tide import high
from tide import low

limit = 1
