from tideboard.units import feet, metres
import os


def draw(rows):
    return rows
