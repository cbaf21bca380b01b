import os
import sys

print(sys.path, os.name)
