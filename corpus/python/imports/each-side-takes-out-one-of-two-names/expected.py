import math

limit = 1
