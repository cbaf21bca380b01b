# https://tideboard.example/scripts/release.py
import subprocess
import sys

TAG = sys.argv[1]
