from pathlib import Path

from tides import read


def table(path):
    rows = read(Path(path) / "tides.csv")
<<<<<<< ours
=======
    log(os.path.basename(path))
>>>>>>> theirs
    return sorted(rows)
