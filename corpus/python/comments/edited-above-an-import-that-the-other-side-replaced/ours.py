# https://tideboard.example/scripts/release.py
from subprocess import check_output
import sys

TAG = sys.argv[1]
