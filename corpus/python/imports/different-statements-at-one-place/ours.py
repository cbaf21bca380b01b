import os
import sys
import tomllib

print(sys.path, os.name)
