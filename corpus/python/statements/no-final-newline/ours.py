import sys

print(sys.argv[1:])
sys.exit(0)