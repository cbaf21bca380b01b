# This file is part of tideboard.
#
# Copyright the tideboard author

from __future__ import annotations

from typing import Optional

from board import Row

NAME = "row"
