from tide.results import High
from tide.util import flatten


def draw(level):
<<<<<<< ours
    return flatten(level, 1)
=======
    return flatten(level)
>>>>>>> theirs
