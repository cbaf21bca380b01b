import sys

print(sys.argv)
sys.exit(0)