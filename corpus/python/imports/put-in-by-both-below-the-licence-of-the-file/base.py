# Licence: MIT
# Copyright the tideboard authors
from board import Row
from board import Table


def draw(rows):
    return Table(Row(r) for r in rows)
