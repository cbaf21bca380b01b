# This file is part of tideboard.
#
# Copyright the tideboard authors
from board import Row

NAME = "row"
