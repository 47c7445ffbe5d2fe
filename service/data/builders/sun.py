"""How is the table of the sun's days made? Run ``python -m service.data.builders.sun``.

pvlib's implementation of the Solar Position Algorithm (I. Reda and A. Andreas, NREL/TP-560-34302, revised January
2008; within 0.0003 degrees) gives the geocentric sun at 00:00 universal time of each day that a typical year needs:
the reference year and, for other time zones and the interpolation, two days before it and three after.
"""

import hashlib
from pathlib import Path

import numpy as np
from pvlib import spa

from service.core.model.hours import REFERENCE_YEAR

TARGET = Path(__file__).parent.parent / "sun" / "sun_days.csv"
DELTA_T_S = 69.2  # terrestrial minus universal time in 2025; 1 s of it moves the sun by 0.00001 degrees


def sun_rows() -> list[str]:
    """One line a day: date, declination, hour angle at Greenwich (degrees), distance (astronomical units)."""
    days = np.arange(f"{REFERENCE_YEAR - 1}-12-30", f"{REFERENCE_YEAR + 1}-01-04", dtype="datetime64[D]")
    moments = days.astype("datetime64[s]").astype(np.float64)
    nowhere = (0.0, 0.0, 0.0, 1013.25, 12.0, DELTA_T_S, 0.5667, 1)  # the place matters to none of these four
    sidereal, right_ascension, declination = spa.solar_position_numpy(moments, *nowhere, sst=True)
    distance = spa.solar_position_numpy(moments, *nowhere, esd=True)[0]
    hour_angle = (sidereal - right_ascension) % 360.0
    columns = zip(days, declination, hour_angle, distance, strict=True)
    return [f"{day},{north:.8f},{west:.8f},{away:.10f}" for day, north, west, away in columns]


def main() -> None:
    """Write the table; print the size and checksum for SOURCES.md."""
    lines = ["day,declination_deg,greenwich_hour_angle_deg,distance_au", *sun_rows()]
    TARGET.write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(TARGET, TARGET.stat().st_size, "bytes; sha256", hashlib.sha256(TARGET.read_bytes()).hexdigest())


if __name__ == "__main__":
    main()
