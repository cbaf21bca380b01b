import os
import sys
from pathlib import Path

print(sys.path, os.name)
