import math
from tide import harbour as port

limit = 1
