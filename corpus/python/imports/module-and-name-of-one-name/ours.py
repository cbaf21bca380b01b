import os
import almanac

LEVEL = 1
