# This file is part of tideboard.
#
# Copyright the tideboard authors

from board import Row
from board import rows

from harbour import Port

NAME = "row"
