import os
import sys
import tomllib
from pathlib import Path

print(sys.path, os.name)
