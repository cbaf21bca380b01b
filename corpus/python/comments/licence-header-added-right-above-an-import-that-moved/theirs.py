from board import Row
from board import rows

from harbour import Port

NAME = "row"
