"""Make stations_open.csv: the sites of a station table whose licence is plainly open.

``python tests/reference/make_stations_open.py TABLE.csv``. Kept are rows under CC BY 4.0 (KNMI, Met Eireann, and
CM SAF through IWU and DWD) and in the US public domain (NREL); everything else stays out.
"""

import csv
import sys
from pathlib import Path

OPEN = ("CC BY 4.0", "US public domain")
COLUMNS = (
    "site",
    "lat",
    "lon",
    "elev_m",
    "country",
    "region",
    "quality",
    "basis",
    "period",
    "source",
    "source_licence",
)
MONTHS = tuple(f"m{month:02d}" for month in range(1, 13))


def main(table: Path) -> None:
    """Copy the open rows, the columns that a comparison needs."""
    with table.open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["source_licence"].startswith(OPEN)]
    with (Path(__file__).parent / "stations_open.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, (*COLUMNS, *MONTHS), extrasaction="ignore", lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
