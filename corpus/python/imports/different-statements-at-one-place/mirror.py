import os
import sys
from pathlib import Path
import tomllib

print(sys.path, os.name)
