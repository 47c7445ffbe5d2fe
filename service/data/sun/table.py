"""How is the table of the sun's days read?"""

import csv
from importlib.resources import files

import numpy as np

from service.core.model.sun_days import Floats, SunDays

TABLE = "sun_days.csv"


def load_sun_days() -> SunDays:
    """The packaged table: 370 days from 30 December before the reference year to 3 January after it."""
    rows = list(csv.DictReader(files(__package__).joinpath(TABLE).read_text(encoding="utf-8").splitlines()))

    def column(name: str) -> Floats:
        values = np.array([row[name] for row in rows], dtype=np.float64)
        values.setflags(write=False)
        return values

    return SunDays(
        first_day=np.datetime64(rows[0]["day"], "D"),
        declination_deg=column("declination_deg"),
        greenwich_hour_angle_deg=column("greenwich_hour_angle_deg"),
        distance_au=column("distance_au"),
    )
