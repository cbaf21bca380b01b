from tide.results import High
from tide.util.eventual import eventually


def draw(level):
    return level
