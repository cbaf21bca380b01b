import math
from tide import low
from tide import mean

limit = 1
