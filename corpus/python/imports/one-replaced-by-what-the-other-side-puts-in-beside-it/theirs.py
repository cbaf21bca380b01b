from tide.results import High
from tide.util import flatten
from tide.util.eventual import eventually


def draw(level):
    return flatten(level, 1)
