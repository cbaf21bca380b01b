from tideboard.units import feet, knots, metres
import os


def draw(rows):
    return rows
