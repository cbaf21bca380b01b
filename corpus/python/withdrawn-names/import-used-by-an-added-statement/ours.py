from pathlib import Path

from tides import read


def table(path):
    rows = read(Path(path) / "tides.csv")
    return sorted(rows)
