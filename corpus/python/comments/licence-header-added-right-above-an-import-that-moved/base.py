from harbour import Port

from board import Row
from board import rows

NAME = "row"
