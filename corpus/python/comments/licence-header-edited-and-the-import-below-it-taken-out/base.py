# This file is part of tideboard.
#
# Copyright the tideboard authors
from typing import Optional

from board import Row

NAME = "row"
