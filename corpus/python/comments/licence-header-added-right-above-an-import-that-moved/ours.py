# This file is part of tideboard.
#
# Copyright the tideboard authors
from harbour import Port

from board import Row
from board import rows

NAME = "row"
