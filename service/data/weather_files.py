"""Which hourly weather files does the operator keep, and what do they hold? A bad one stops the start and is named.

The files are EPW, an open format of comma-separated hours: eight lines of heading, then a row an hour. Field numbers,
and what stands for a missing value, are those that pvlib's reader documents, which the tests hold against this one.
"""

import hashlib
from codecs import BOM_UTF8
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from pathlib import Path
from types import MappingProxyType
from typing import Any

import numpy as np

from service.core.model.bounds import BOUNDS, Bounds
from service.core.model.hours import HOURS, Bools, Floats
from service.data.climate.grid import KM_A_DEGREE, arc_deg

MOST_FILES = 50
LARGEST_BYTES = 8_000_000
LONGEST_NAME = 80
_ENDING = ".epw"
_HEADING, _FIELDS_OF_PLACE = 8, 9
_MONTH, _DAY, _HOUR, _AIR, _GHI, _DNI, _DHI = 1, 2, 3, 6, 13, 14, 15
_NO_AIR_C, _NO_AIR_OF_OTHERS_C, _NO_LIGHT = 99.9, 999.0, 9999.0
_OFFSET_HOURS = Bounds(-14, 14, "h")
_PLAIN_YEAR = 2023
_LEAP_DAY_FROM = 59 * 24  # the hour of a leap year at which 29 February begins


class WeatherFileError(ValueError):
    """A folder of weather files cannot be read, or a file in it is not what it should be; the message names it."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WeatherFile:
    """The 8760 hours of one file, from 1 January in its standard time on; NaN where an hour is missing.

    ``digest``: SHA-256 of its content.
    """

    digest: str
    latitude_deg: float
    longitude_deg: float
    offset_hours: float
    ghi_w_per_m2: Floats
    dni_w_per_m2: Floats
    dhi_w_per_m2: Floats
    air_c: Floats

    def km_from(self, latitude_deg: float, longitude_deg: float) -> float:
        """Distance of its place from another one."""
        here = (np.array(self.latitude_deg), np.array(self.longitude_deg))
        return KM_A_DEGREE * float(arc_deg(latitude_deg, longitude_deg, *here))

    def series(self) -> Mapping[str, Any]:
        """Its hours as the series of a request: those of a year without a leap day, whatever years they come from.

        A column that is missing in all hours is left out.
        """
        zone = timezone(timedelta(hours=self.offset_hours))
        columns = {
            "ghi_w_per_m2": self.ghi_w_per_m2, "dni_w_per_m2": self.dni_w_per_m2, "dhi_w_per_m2": self.dhi_w_per_m2,
            "air_c": self.air_c,
        }  # fmt: skip
        first = datetime(_PLAIN_YEAR, 1, 1, tzinfo=zone).isoformat()
        told = {name: one for name, one in columns.items() if not np.isnan(one).all()}
        return {"first": first, "step_minutes": 60, "stamp": "start", **told}


def weather_files(folder: str) -> Mapping[str, WeatherFile]:
    """The files of a folder by their names without the ending; none where no folder is named. Others are passed over.

    Raises:
        WeatherFileError: no such folder, no such file in it, more than 50, or a file that is not what it should be.
    """
    if not folder:
        return MappingProxyType({})
    try:
        found = sorted(path for path in Path(folder).iterdir() if path.suffix.lower() == _ENDING)
    except OSError as error:
        raise _fault(folder, f"cannot be read as a folder ({error.strerror})") from error
    if not 1 <= len(found) <= MOST_FILES:
        raise _fault(folder, f"holds {len(found)} files that end in {_ENDING}; accepted: 1 to {MOST_FILES}")
    return MappingProxyType({path.stem: _file_at(path) for path in found})


def _file_at(path: Path) -> WeatherFile:
    if len(path.stem) > LONGEST_NAME:
        raise _fault(str(path), f"has a name of {len(path.stem)} signs; accepted: up to {LONGEST_NAME}")
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise _fault(str(path), f"is larger than {LARGEST_BYTES} bytes")
        content = path.read_bytes()
        lines = content.removeprefix(BOM_UTF8).decode("latin-1").splitlines()
        place = lines[0].split(",")
        if place[0].strip().upper() != "LOCATION":
            raise _fault(str(path), "does not begin with LOCATION")
        if len(place) < _FIELDS_OF_PLACE:
            raise _fault(str(path), f"has {len(place)} fields in its first line; accepted: at least {_FIELDS_OF_PLACE}")
        latitude_deg, longitude_deg, offset_hours = _place(path, [float(field) for field in place[6:9]])
        rows = np.loadtxt(
            lines[_HEADING:], delimiter=",", usecols=(_MONTH, _DAY, _HOUR, _AIR, _GHI, _DNI, _DHI), ndmin=2
        )
    except (OSError, ValueError, IndexError) as error:
        if isinstance(error, WeatherFileError):
            raise
        raise _fault(str(path), f"is no such file ({error})") from error
    odd: Bools = np.any(~np.isfinite(rows), axis=1)
    if odd.any():
        raise _fault(str(path), f"has something else than a number in line {_line(odd)}")
    air, ghi, dni, dhi = _columns(path, rows[:, 3:].T)
    hours = np.column_stack([rows[:, :3], air, ghi, dni, dhi])
    if hours.shape[0] == HOURS + 24:
        hours = np.delete(hours, slice(_LEAP_DAY_FROM, _LEAP_DAY_FROM + 24), axis=0)
    if not np.array_equal(hours[:, :3], _hours_of_a_year()):
        raise _fault(str(path), f"has {rows.shape[0]} rows; accepted: each hour of a year once, from 1 January on")
    air, ghi, dni, dhi = hours[:, 3:].T
    return WeatherFile(
        digest=hashlib.sha256(content).hexdigest(), latitude_deg=latitude_deg, longitude_deg=longitude_deg,
        offset_hours=offset_hours, ghi_w_per_m2=ghi, dni_w_per_m2=dni, dhi_w_per_m2=dhi, air_c=air,
    )  # fmt: skip


def _place(path: Path, fields: list[float]) -> list[float]:
    """Latitude, longitude and hours from UTC, as they are."""
    facts = (("latitude", BOUNDS["latitude_deg"]), ("longitude", BOUNDS["longitude_deg"]), ("time zone", _OFFSET_HOURS))
    for (what, bounds), value in zip(facts, fields, strict=True):
        if not bounds.low <= value <= bounds.high:
            accepted = f"accepted: {bounds.low:g} to {bounds.high:g} {bounds.unit}"
            raise _fault(str(path), f"is of {what} {value:g}; {accepted}")
    return fields


def _columns(path: Path, columns: Floats) -> list[Floats]:
    """Air and light of each row, NaN where missing; each within what there can be, and some light among it."""
    air, *light = columns
    known = [np.where((np.abs(air - _NO_AIR_C) < 0.05) | (np.abs(air) >= _NO_AIR_OF_OTHERS_C), np.nan, air)]
    known += [np.where((one >= _NO_LIGHT) | (one < 0.0), np.nan, one) for one in light]
    for name, values in zip(("air_c", "ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2"), known, strict=True):
        bounds = BOUNDS[name]
        beyond = (values < bounds.low) | (values > bounds.high)
        if beyond.any():
            accepted = f"accepted: {bounds.low:g} to {bounds.high:g} {bounds.unit}"
            raise _fault(str(path), f"has {name} of {values[beyond][0]:g} in line {_line(beyond)}; {accepted}")
    if not (np.nan_to_num(known[1]) > 0.0).any():
        raise _fault(str(path), "tells of no light on level ground (field 14) in any hour")
    return known


def _line(rows: Bools) -> int:
    """The line of the file in which the first of these rows stands."""
    return _HEADING + 1 + int(np.argmax(rows))


def _hours_of_a_year() -> Floats:
    """Month, day and hour (1 to 24, the hour that ends then) of each row of a year of 365 days."""
    hours = np.arange(f"{_PLAIN_YEAR}-01-01T00", f"{_PLAIN_YEAR + 1}-01-01T00", dtype="datetime64[h]")
    days, months = hours.astype("datetime64[D]"), hours.astype("datetime64[M]")
    parts = (months.astype(int) % 12, (days - months).astype(int), (hours - days).astype(int))
    return np.column_stack(parts) + 1.0


def _fault(where: str, problem: str) -> WeatherFileError:
    return WeatherFileError(f"weather files: {where}: {problem}")
