"""Tides."""

from tideboard.units import feet
from tideboard.units import knots
from tideboard.units import metres
import os


def draw(rows):
    return rows
