"""How much too high do the grids read in cold months? One factor, learned on open stations, judged on left-out ones.

``python -m service.data.builders.climate.cold_months [STATIONS.csv]`` prints the factor for ``recipe.py`` and what it
is with each region left out. Points of the satellite that makes part of the table do not take part.
"""

import csv
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from service.core.sky.clear_sky import clear_sky_months
from service.data.climate import ClimateTable, load_climate
from service.data.climate.recipe import cold_depth

Floats = NDArray[np.float64]
Row = Mapping[str, str]

STATIONS = Path("tests/reference/stations_open.csv")
_OPEN = ("CC BY 4.0", "US public domain")
# P. J. Huber's weights (1964): months that are farther off than this, in ln, pull no harder than if they were this far.
# Typical years are made of single months, some of which were uncommonly dull: least squares alone gave 0.09 by them.
_FAR_LN = 0.1
_STEPS = 50


def left_out_region(row: Row) -> str:
    """The region that a site is left out with: its country; the US in 8 parts, the Netherlands and Egypt in 2."""
    latitude, longitude = float(row["lat"]), float(row["lon"])
    if row["country"] == "US":
        part = "WMCE"[int(np.searchsorted([-115.0, -100.0, -88.0], longitude))]
        return f"US-{part}{'N' if latitude > 39.0 else 'S'}"
    if row["country"] == "NL":
        return "NL-W" if longitude < 5.2 else "NL-E"
    if row["country"] == "EG":
        return "EG-N" if latitude > 29.0 else "EG-S"
    return row["country"]


def may_teach(row: Row) -> bool:
    """Openly licensed, and no point of the satellite itself."""
    return row["source_licence"].startswith(_OPEN) and row["basis"] != "satellite"


def factor_of(rows: Sequence[Row], table: ClimateTable, without: str | None = None) -> float:
    """What ``recipe.COLD_LN_PER_10_K`` should be by these rows, the region ``without`` left out.

    Every region counts alike, however many its sites; months count with their clear sky, as errors are in kWh.
    """
    teachers = [(left_out_region(row), _residuals(row, table)) for row in rows if may_teach(row)]
    known = [(region, found) for region, found in teachers if found is not None and region != without]
    regions = [region for region, _ in known]
    too_high, depth, clear = (np.concatenate(parts) for parts in zip(*(found for _, found in known), strict=True))
    alike = np.concatenate([np.full(found[0].size, 1.0 / regions.count(region)) for region, found in known])
    factor = 0.0
    for _ in range(_STEPS):
        far = np.abs(too_high - factor * depth)
        weight = alike * clear * _FAR_LN / np.maximum(far, _FAR_LN)
        factor = float((weight * depth * too_high).sum() / (weight * depth**2).sum())
    return factor


def _residuals(row: Row, table: ClimateTable) -> tuple[Floats, Floats, Floats] | None:
    """Of the months that the row has: ln of both grids over the station, depth of the cold, clear sky."""
    latitude, longitude, height = (float(row[name]) for name in ("lat", "lon", "elev_m"))
    place = table.at(latitude, longitude, height)
    clear = clear_sky_months(table.sun_days, latitude, np.asarray([height]), place.linke_turbidity[np.newaxis])[0]
    by_grids = table.grids_ln(latitude, longitude, height, clear)
    if by_grids is None:
        return None
    measured = np.asarray([float(row[f"m{month:02d}"] or "nan") for month in range(1, 13)])
    known = np.isfinite(measured)
    too_high = by_grids[known] - np.log(measured[known] / clear[known])
    return too_high, cold_depth(place.air_c)[known], clear[known]


def main(path: Path) -> None:
    """Print the factor, and those with a region left out."""
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    table = load_climate()
    print(f"all regions: {factor_of(rows, table):.3f}")
    for region in sorted({left_out_region(row) for row in rows if may_teach(row)}):
        print(f"without {region}: {factor_of(rows, table, region):.3f}")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else STATIONS)
