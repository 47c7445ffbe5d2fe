"""Make hours_extract.json: what three files of hourly weather come to, by month, by day and on five planes.

``python tests/reference/make_hours_extract.py FOLDER`` with NAME.csv.gz files of columns time_utc_end, ghi, dni, dhi,
temp_air, wind_speed (W/m2, C, m/s; the stamp is UTC and the hour's end). Light on a plane by Hay and Davies with 0.2
ground reflectance, both for these files and for our year, so that only the hours are compared.
"""

import csv
import gzip
import json
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from pvlib import solarposition

from service.core.model.place import Plane
from service.core.sky import hay_davies
from service.core.sky.clear_sky import extraterrestrial

CHANCES = (0.01, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9)
PLANES = ((0, 180), (35, 180), (90, 180), (90, 90), (90, 270), (20, 270))
NREL = "NREL typical meteorological year, third collection (2008), US public domain"
PLACES: dict[str, dict[str, Any]] = {
    "seattle_us": {"at": (47.47, -122.32, 122.0), "zone": "America/Los_Angeles", "source": NREL},
    "las_vegas_us": {"at": (36.08, -115.15, 648.0), "zone": "America/Los_Angeles", "source": NREL},
    "miami_us": {"at": (25.82, -80.30, 11.0), "zone": "America/New_York", "source": NREL},
}


def main(folder: Path) -> None:
    """Read, sum, write."""
    extract = {name: extract_of(folder / f"{name}.csv.gz", facts) for name, facts in PLACES.items()}
    (Path(__file__).parent / "hours_extract.json").write_text(json.dumps(extract, indent=1) + "\n", encoding="utf-8")


def extract_of(path: Path, facts: dict[str, Any]) -> dict[str, Any]:
    """Monthly sums, diffuse share, daily swing of the air, and the light on the planes."""
    with gzip.open(path, "rt", encoding="utf-8") as file:
        rows = list(csv.reader(file))[1:]
    end = np.array([row[0].replace("Z", "").replace(" ", "T")[:19] for row in rows], dtype="datetime64[s]")
    ghi, dni, dhi, air, wind = np.array([[float(cell) for cell in row[1:6]] for row in rows]).T
    middle = end - np.timedelta64(1800, "s")
    sun = solarposition.get_solarposition(pd.DatetimeIndex(middle, tz="UTC"), *facts["at"])
    distance_au = solarposition.nrel_earthsun_distance(sun.index).to_numpy()
    angles = (sun["apparent_zenith"].to_numpy(), sun["azimuth"].to_numpy())
    outside = extraterrestrial(distance_au)
    month = np.repeat(np.arange(12), np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]) * 24)
    swing = np.repeat(np.ptp(air.reshape(365, 24), axis=1), 24)
    return {
        "source": facts["source"],
        "at": facts["at"],
        "zone": facts["zone"],
        "ghi_kwh_per_m2": np.round(np.bincount(month, ghi) / 1000.0, 2).tolist(),
        "day_clearness": day_clearness(ghi, angles[0], outside),
        "diffuse_share": round(float(dhi.sum() / ghi.sum()), 4),
        "air_c": np.round(np.bincount(month, air) / np.bincount(month), 2).tolist(),
        "air_swing_k": np.round(np.bincount(month, swing) / np.bincount(month), 2).tolist(),
        "coldest_air_c": float(air.min()),
        "hottest_air_c": float(air.max()),
        "wind_by_day_m_per_s": round(float(wind[ghi > 50.0].mean()), 2),
        "planes": [on_plane(tilt, azimuth, angles, (ghi, dni, dhi), outside) for tilt, azimuth in PLANES],
    }


def day_clearness(ghi: Any, zenith_deg: Any, outside: Any) -> list[float]:
    """Quantiles (``CHANCES``) of daily irradiation on level ground over that outside the air."""
    level = outside * np.maximum(np.cos(np.deg2rad(zenith_deg)), 0.0)
    by_day = (light.reshape(365, 24).sum(axis=1) for light in (ghi, level))
    return [round(float(q), 3) for q in np.quantile(np.divide(*by_day), CHANCES)]


def on_plane(
    tilt: float, azimuth: float, angles: tuple[Any, Any], light: tuple[Any, Any, Any], outside: Any
) -> dict[str, float]:
    """Energy on a plane, and the part of it above 600 and above 800 W/m2."""
    plane = Plane(tilt_deg=tilt, azimuth_deg=azimuth)
    total = hay_davies(plane, *angles, light, outside, 0.2).total_w_per_m2()
    above = {f"above_{limit}_kwh": float(np.maximum(total - limit, 0.0).sum() / 1000.0) for limit in (600, 800)}
    sums = {"kwh": float(total.sum() / 1000.0), **above}
    return {"tilt_deg": tilt, "azimuth_deg": azimuth, **{name: round(value, 2) for name, value in sums.items()}}


if __name__ == "__main__":
    main(Path(sys.argv[1]))
