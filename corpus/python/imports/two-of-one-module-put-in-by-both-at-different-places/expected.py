import math
from tide import high
from tide import low
from moor import read
from moor import pick

limit = 1
