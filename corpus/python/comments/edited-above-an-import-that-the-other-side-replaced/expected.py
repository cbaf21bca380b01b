# https://tideboard.example/changes/254
# https://tideboard.example/tools/release_notes.py
from subprocess import check_output
import sys

TAG = sys.argv[1]
