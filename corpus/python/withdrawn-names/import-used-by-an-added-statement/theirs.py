import os

from tides import read


def table(path):
    rows = read(os.path.join(path, "tides.csv"))
    log(os.path.basename(path))
    return rows
