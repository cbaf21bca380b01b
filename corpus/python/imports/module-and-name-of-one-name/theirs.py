import os
from tideboard import almanac

LEVEL = 1
