import os

LEVEL = read(unit="m")
