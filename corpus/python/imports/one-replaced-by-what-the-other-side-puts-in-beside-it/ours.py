from tide.results import High
from tide.util import flatten


def draw(level):
    return flatten(level)
