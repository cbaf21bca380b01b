import os

LEVEL = 1
