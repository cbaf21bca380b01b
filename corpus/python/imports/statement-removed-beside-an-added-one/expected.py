import json
import sys

print(sys.path)
