"""Draws the tide board.

One row a station, refreshed every minute.
"""
import sys
from board import Row


def draw(rows):
    return [Row(r) for r in rows]
