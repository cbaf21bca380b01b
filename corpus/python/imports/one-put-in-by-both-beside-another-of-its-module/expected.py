import math
from tide import levels
from tide import harbour as port

limit = 1
