# Licence: MIT
# Copyright the tideboard authors

from __future__ import print_function

from board import Row
from board import Table


def draw(rows):
    return Table(Row(r) for r in rows)
