# https://tideboard.example/changes/254
# https://tideboard.example/tools/release_notes.py
import subprocess
import sys

TAG = sys.argv[1]
