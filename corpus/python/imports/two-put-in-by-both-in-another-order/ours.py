import math
from moor import read
from tide import low
from tide import high

limit = 1
