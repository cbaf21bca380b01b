import os

from tides import read


def table(path):
    rows = read(os.path.join(path, "tides.csv"))
    return rows
