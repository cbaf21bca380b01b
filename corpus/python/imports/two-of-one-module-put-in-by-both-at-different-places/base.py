import math
from moor import read

limit = 1
