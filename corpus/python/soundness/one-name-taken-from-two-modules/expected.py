import os
from tides import level


def refresh(board):
    board.draw(
        os.name,
        unit="m",
<<<<<<< ours
        limit=level(),
=======
        first=level(),
>>>>>>> theirs
    )


import sys
from stations import level


def quit():
    sys.exit()
