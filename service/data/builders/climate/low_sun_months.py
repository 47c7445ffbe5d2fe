"""How much too high does the satellite read while the sun is low? One factor, learned on stations in its box.

``python -m service.data.builders.climate.low_sun_months [STATIONS.csv]`` prints the factor for ``recipe.py`` and what
each country alone asks for. Points of the satellite itself teach nothing.
"""

import csv
import sys
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from service.core.sky.clear_sky import clear_sky_months
from service.data.builders.climate.cold_months import STATIONS, Row
from service.data.climate import ClimateTable, load_climate
from service.data.climate.recipe import low_sun_depth, satellite_share

Floats = NDArray[np.float64]


def low_sun_factor_of(rows: Sequence[Row], table: ClimateTable, without: str | None = None) -> float | None:
    """What ``recipe.LOW_SUN_LN`` should be by these rows, the country ``without`` left out; None: no row teaches.

    Each site has a level of its own, so that only its seasons count; every country counts alike.
    """
    by_country: dict[str, list[float]] = {}
    for row in rows:
        if teaches_low_sun(row) and row["country"] != without:
            by_country.setdefault(row["country"], []).append(_slope(row, table))
    return float(np.mean([np.mean(slopes) for slopes in by_country.values()])) if by_country else None


def teaches_low_sun(row: Row) -> bool:
    """Inside the box, no point of the satellite itself, and of twelve months."""
    inside = satellite_share(float(row["lat"]), float(row["lon"])) > 0.0
    return inside and row["basis"] != "satellite" and all(row[f"m{month:02d}"] for month in range(1, 13))


def _slope(row: Row, table: ClimateTable) -> float:
    """Of the site's months: by how much the satellite's excess, in ln, grows from high sun to low."""
    latitude, longitude, height = (float(row[name]) for name in ("lat", "lon", "elev_m"))
    haze = table.terrain.turbidity(latitude, longitude)[np.newaxis]
    clear = clear_sky_months(table.sun_days, latitude, np.asarray([height]), haze)[0]
    measured = np.asarray([float(row[f"m{month:02d}"]) for month in range(1, 13)])
    too_high = table.satellite_index.at(latitude, longitude) - np.log(measured / clear)
    depth = low_sun_depth(clear)
    return float(np.cov(depth, too_high)[0, 1] / np.var(depth, ddof=1))


def main(path: Path) -> None:
    """Print the factor, and those of each country."""
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    table = load_climate()
    print(f"all countries: {low_sun_factor_of(rows, table)}")
    for country in sorted({row["country"] for row in rows if teaches_low_sun(row)}):
        alone = low_sun_factor_of([row for row in rows if row["country"] == country], table)
        print(f"{country}: {alone}")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else STATIONS)
