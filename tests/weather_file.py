"""An hourly weather file of the invented port, made of its typical year: eight lines of heading, then a row an hour."""

from collections.abc import Collection, Mapping
from functools import cache
from pathlib import Path

import numpy as np

from service.core.model.hours import SkyYear
from service.core.sky import typical_year
from service.data.climate import load_climate

PLACE = (54.2, 12.3)
_HEADING = [
    "DESIGN CONDITIONS,0", "TYPICAL/EXTREME PERIODS,0", "GROUND TEMPERATURES,0", "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
    "COMMENTS 1,made up", "COMMENTS 2,", "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31",
]  # fmt: skip


@cache
def sky() -> SkyYear:
    """The typical year of the place, by standard time."""
    return typical_year(load_climate().at(*PLACE, None), "Europe/Berlin")


@cache
def _rows() -> tuple[str, ...]:
    year = sky()
    days = np.arange("2023-01-01", "2024-01-01", dtype="datetime64[D]")
    rows = []
    for at in range(8760):
        _, month, day = str(days[at // 24]).split("-")
        fields = ["0"] * 35
        fields[:6] = ["2001", str(int(month)), str(int(day)), str(at % 24 + 1), "60", "?9?9"]
        fields[6] = f"{year.air_c[at]:.1f}"
        fields[13:16] = [f"{values[at]:.0f}" for values in (year.ghi_w_per_m2, year.dni_w_per_m2, year.dhi_w_per_m2)]
        fields[21] = "4.1"
        rows.append(",".join(fields))
    return tuple(rows)


def epw_lines(
    place: tuple[float, float] = PLACE, offset_hours: float = 1.0, *, missing: Collection[int] = (), leap: bool = False
) -> list[str]:
    """The lines; with hours that are missing, and with a 29 February like the 28th."""
    rows = list(_rows())
    for at in missing:
        fields = rows[at].split(",")
        fields[6], fields[13:16] = "99.9", ["9999"] * 3
        rows[at] = ",".join(fields)
    if leap:
        rows[59 * 24 : 59 * 24] = [row.replace("2001,2,28,", "2001,2,29,") for row in rows[58 * 24 : 59 * 24]]
    location = f"LOCATION,Nordmole,-,DEU,made up,0,{place[0]},{place[1]},{offset_hours},8.0"
    return [location, *_HEADING, *rows]


def with_fields(changed: Mapping[int, str], hours: Collection[int] = range(8760)) -> list[str]:
    """The lines, with fields (numbered from 0) of some hours as told."""
    lines = epw_lines()
    for at in hours:
        fields = lines[8 + at].split(",")
        for number, value in changed.items():
            fields[number] = value
        lines[8 + at] = ",".join(fields)
    return lines


def written(folder: Path, name: str, lines: list[str]) -> Path:
    """Put them into a file."""
    path = folder / f"{name}.epw"
    path.write_text("\n".join(lines) + "\n", encoding="latin-1")
    return path
