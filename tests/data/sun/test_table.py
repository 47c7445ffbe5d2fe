"""Does the table of the sun's days cover the reference year, and is each column within what the sky allows?"""

import csv
from pathlib import Path

import numpy as np
import pytest

import service.data.sun
from service.core.model.hours import REFERENCE_YEAR
from service.data.builders.sun import sun_rows
from service.data.sun import load_sun_days

SUN_DAYS = load_sun_days()
TABLE = Path(service.data.sun.__file__).parent / "sun_days.csv"
# name -> (least, most)
RULES = {
    "declination_deg": (-23.45, 23.45),
    "greenwich_hour_angle_deg": (176.3, 184.2),  # the equation of time: -14.3 to 16.5 minutes
    "distance_au": (0.983, 1.017),
}


def test_there_is_a_row_for_every_day_of_the_year_and_those_about_it() -> None:
    with TABLE.open(encoding="utf-8", newline="") as file:
        days = [row["day"] for row in csv.DictReader(file)]
    wanted = np.arange(f"{REFERENCE_YEAR - 1}-12-30", f"{REFERENCE_YEAR + 1}-01-04", dtype="datetime64[D]")
    assert days == wanted.astype(str).tolist()
    assert SUN_DAYS.first_day == wanted[0]


@pytest.mark.parametrize("name", RULES)
def test_a_column_keeps_its_range_and_does_not_jump(name: str) -> None:
    values, (least, most) = getattr(SUN_DAYS, name), RULES[name]
    assert values.shape == (370,)
    assert least < values.min() < values.max() < most
    assert np.abs(np.diff(values)).max() < 0.02 * (most - least)


def test_the_table_is_what_its_builder_makes() -> None:
    made = np.array([row.split(",")[1:] for row in sun_rows()], dtype=np.float64).T
    assert made[0] == pytest.approx(SUN_DAYS.declination_deg, abs=2e-8)
    assert made[1] == pytest.approx(SUN_DAYS.greenwich_hour_angle_deg, abs=2e-8)
    assert made[2] == pytest.approx(SUN_DAYS.distance_au, abs=2e-10)


def test_its_values_cannot_be_written_to() -> None:
    with pytest.raises(ValueError, match="read-only"):
        SUN_DAYS.distance_au[0] = 1.0
