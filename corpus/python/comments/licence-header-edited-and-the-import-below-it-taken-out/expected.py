# This file is part of tideboard.
#
# Copyright the tideboard author

from __future__ import annotations

from board import Row

NAME = "row"
