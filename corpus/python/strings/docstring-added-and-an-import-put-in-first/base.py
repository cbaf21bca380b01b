import os

x = os.name