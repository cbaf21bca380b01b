"""Tides."""

from tideboard.units import metres
import os


def draw(rows):
    return rows
