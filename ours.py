import os
from harbour import (
    level,
    ebb,
)
import sys

from tides import high


def show(rows):
    for row in rows:
        print(row)


def main():
    show(high(sys.argv[1]))
