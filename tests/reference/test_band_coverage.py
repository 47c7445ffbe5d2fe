"""How many true years lie between cautious and hopeful? About eighty of a hundred.

Stations with an open licence (stations_open.csv; points of the satellite that is half of our table in its box judge
nothing and are left out), 52 sites: their measured or typical monthly irradiation makes the true mean year of a set,
by the same chain; the answer knows the table alone. What else moves a true year is drawn evenly over its stated
spread, ten years a site: the year's weather (the cell's own spread), and panel, dirt, ground and model. So the error
of the climate table is real, that of the rest is what the answer says of it.

What is wanted is 80 of 100, and one in ten beyond each end. The ten years of a site share its error: by their likeness
within a site 520 count as some 110, of which 4 (an end: 3) in a hundred is one standard deviation. The bounds are 75 to
85 of 100, and 4 to 16.

True agreement: 84 % of the years of a set that its limit cuts and 83 % of those of a free upright panel lie within; 7
and 8 % fall below cautious, 10 and 8 % rise above hopeful. Before a plane's light was told from level ground's and
clear hours from dull ones (``sky.other_years``) it was 73 and 77 %. No figure of that was chosen on stations.
"""

import csv
from dataclasses import replace
from functools import cache
from math import hypot
from pathlib import Path
from statistics import NormalDist

import numpy as np
import pytest

from service.core.energy import energy_year
from service.core.model.assumption import Assumptions
from service.core.model.place import Plane
from service.core.sky import typical_year
from service.core.sky.clear_sky import MONTH_DAYS
from service.data.climate import load_climate
from tests.builders import array, inverter, one_input, setup

MONTH_OF_ROW = np.repeat(np.arange(12), np.asarray(MONTH_DAYS) * 24)
YEARS = 10
NORMAL = [NormalDist().inv_cdf((n + 0.5) / YEARS) for n in range(YEARS)]
UPRIGHT = array(plane=Plane(tilt_deg=90, azimuth_deg=180))
TILTED = replace(UPRIGHT, plane=Plane(tilt_deg=35, azimuth_deg=180), mount="ground_frame")
SETS = {
    "two panels cut at 600 W": setup(
        arrays=(TILTED, replace(TILTED, name="right", input=2)), inverter=inverter(set_limit_w=600)
    ),
    "one upright panel": setup(arrays=(UPRIGHT,), inverter=inverter(inputs=(one_input(),))),
}


@cache
def rows() -> list[dict[str, str]]:
    with (Path(__file__).parent / "stations_open.csv").open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["basis"] != "satellite"]


@cache
def years_of(name: str) -> tuple[np.ndarray, np.ndarray]:
    """(sites, 3) the answer's band, and (sites, YEARS) true years; kWh."""
    table, bands, true = load_climate(), [], []
    for at, row in enumerate(rows()):
        place = table.at(float(row["lat"]), float(row["lon"]), float(row["elev_m"]))
        southern = float(row["lat"]) < 0
        arrays = tuple(
            replace(one, plane=replace(one.plane, azimuth_deg=0.0 if southern else 180.0)) for one in SETS[name].arrays
        )
        asked = replace(SETS[name], arrays=arrays)
        sky = typical_year(place, "UTC")
        told = energy_year(asked, sky, place, Assumptions.of(()))
        clear = np.bincount(MONTH_OF_ROW, sky.clear_ghi_w_per_m2) / 1000.0
        measured = [float(row[f"m{month:02d}"]) * days for month, days in enumerate(MONTH_DAYS, start=1)]
        there = typical_year(replace(place, clear_sky_index=np.array(measured) / clear), "UTC")
        truth = energy_year(asked, there, place, Assumptions.of(()))
        sd = {part.code: part.relative_sd_share for part in told.spread}
        year_to_year, rest = (
            sd["year_to_year"],
            hypot(*(sd[c] for c in sd if c not in {"climate_data", "year_to_year"})),
        )
        true.append([
            truth.kwh_at(1.0 + year_to_year * NORMAL[n] + rest * NORMAL[(3 * n + at) % YEARS]) for n in range(YEARS)
        ])  # fmt: skip
        bands.append((told.year_kwh.cautious, told.year_kwh.middle, told.year_kwh.hopeful))
    return np.array(bands), np.array(true)


@pytest.mark.parametrize("name", SETS)
def test_about_eighty_of_a_hundred_true_years_lie_between_cautious_and_hopeful(name):
    bands, true = years_of(name)
    assert true.size == 10 * len(rows()) == 520
    held = np.mean((true >= bands[:, :1]) & (true <= bands[:, 2:]))
    assert 0.75 < held < 0.85


@pytest.mark.parametrize("name", SETS)
def test_neither_end_is_missed_much_more_often_than_one_in_ten(name):
    bands, true = years_of(name)
    assert 0.04 < np.mean(true < bands[:, :1]) < 0.16
    assert 0.04 < np.mean(true > bands[:, 2:]) < 0.16
