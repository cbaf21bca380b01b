import sys

from tideboard import board

port = sys.argv[1]
board.show(port)
