"""One home's year of minutes, made smaller: the file beside this one.

Source: UCI Machine Learning Repository, "Individual household electric power consumption", Georges Hebrail and Alice
Berard, doi 10.24432/C58K54, licence CC BY 4.0 (https://creativecommons.org/licenses/by/4.0/). A home at Sceaux near
Paris, 2007, mean active power of each minute in W, local clock, 9759 kWh. Changed: one year of four; missing minutes
(3886, four runs of half an hour or more) hold the value of 24 hours before; stored as 16-bit whole watts, compressed.

    python tests/reference/make_minute_home.py DAYS.csv.gz

``DAYS.csv.gz``: one row a day, the date and 1440 mean powers in W.
"""

import csv
import gzip
import lzma
import sys
from pathlib import Path

import numpy as np


def main(path: Path) -> None:
    """Read, check, write."""
    with gzip.open(path, "rt", encoding="utf-8") as file:
        rows = [[float(cell) for cell in row[1:]] for row in list(csv.reader(file))[1:]]
    watts = np.array(rows)
    if watts.shape != (365, 1440) or not np.array_equal(watts, np.round(watts)) or watts.max() >= 2**15:
        message = "not a year of whole watts"
        raise ValueError(message)
    packed = lzma.compress(watts.astype("<i2").tobytes(), preset=9)
    (Path(__file__).parent / "minute_home.i2.xz").write_bytes(packed)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
