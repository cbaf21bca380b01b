import sys
# Licence: MIT
"""Draws the tide board.

One row a station, refreshed every minute.
"""
from board import Row


def draw(rows):
    return [Row(r) for r in rows]
