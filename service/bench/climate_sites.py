"""How far is the climate table off at each site of a list, and of which kind is the site?"""

import csv
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import hypot
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from service.core.errors import NoClimateError
from service.core.model.band import SpreadPart, ends_of
from service.core.model.climate import PlaceClimate
from service.core.sky.clear_sky import MONTH_DAYS, clear_sky_months
from service.data.builders.climate.cloudless_places import Judged, cloudless_sd_of
from service.data.builders.climate.cold_months import factor_of, left_out_region
from service.data.builders.climate.low_sun_months import low_sun_factor_of, teaches_low_sun
from service.data.climate import ClimateTable
from service.data.climate.accuracy import CLOUDLESS_SD_SHARE, cloudless_share
from service.data.climate.recipe import COLD_LN_PER_10_K, LOW_SUN_LN, cold_depth, low_sun_depth, satellite_share

Floats = NDArray[np.float64]
Row = Mapping[str, str]

# W. Koeppen's bounds of tropical and of snowy climates, by the coldest month; what is sunny is our own.
_TROPICAL_FROM_C, _SNOWY_BELOW_C, _SUNNY_FROM = 18.0, -3.0, 0.88


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """One site: its row, the table's region and class of climate there, and relative errors.

    ``months`` (12,) and ``year`` of the table as it is; ``left_out_year`` and ``left_out_months`` as it would be had
    the site's region taken no part in learning. ``held``: the measured year lies between the cautious and the hopeful
    end of the table's light, ``left_out_held`` the same of the left-out one, whose doubt of a cloudless sky is learned
    on the other regions of the file. ``judged``: what that doubt is learned from.
    """

    row: Row
    region: str
    climate: str
    months: Floats
    year: float
    left_out_months: Floats
    left_out_year: float
    held: bool
    left_out_held: bool
    judged: Judged


def sites_of(stations_csv: Path, table: ClimateTable, teachers_csv: Path | None = None) -> tuple[list[Site], list[str]]:
    """All sites of a file that the table answers for, and the names of those that it refuses.

    Args:
        stations_csv: see ``climate``.
        table: as packaged.
        teachers_csv: the list whose open rows the cold-month factor is learned on; None: the same file.
    """
    rows = _read(stations_csv)
    teachers = rows if teachers_csv is None else _read(teachers_csv)
    factors = {region: factor_of(teachers, table, region) for region in {left_out_region(row) for row in teachers}}
    taught_by = {row["country"] for row in rows if teaches_low_sun(row)}
    low_sun = {country: low_sun_factor_of(rows, table, country) for country in taught_by}
    found, refused = [], []
    for row in rows:
        try:
            place = table.at(float(row["lat"]), float(row["lon"]), float(row["elev_m"]))
        except NoClimateError:
            refused.append(row["site"])
            continue
        cold = factors.get(left_out_region(row), COLD_LN_PER_10_K)
        low = low_sun.get(row["country"], LOW_SUN_LN) or 0.0  # nobody else teaches: as if it had never been learned
        found.append((row, place, _left_out_months(place, cold, low)))
    judged = [_judged(row, place) for row, place, _ in found]
    doubts = {region: cloudless_sd_of(judged, region) for region in {one.region for one in judged}}
    sites = [_site(*one, seen, doubts[seen.region]) for one, seen in zip(found, judged, strict=True)]
    return sites, refused


def level_ground_months(table: ClimateTable, latitude_deg: float, longitude_deg: float, elevation_m: float) -> Floats:
    """Mean daily irradiation on level ground by month, (12,) kWh/m2.

    Raises:
        NoClimateError: the table has no answer there.
    """
    return _months(table.at(latitude_deg, longitude_deg, elevation_m))


def compared(modelled: Floats, row: Row) -> tuple[Floats, float]:
    """Relative errors: by month (nan where the row has none), and of the sum over the months it has."""
    measured = np.asarray([float(row[f"m{month:02d}"] or "nan") for month in range(1, 13)])
    days = np.where(np.isfinite(measured), np.asarray(MONTH_DAYS, dtype=np.float64), 0.0)
    yearly = float((modelled * days).sum() / (np.nan_to_num(measured) * days).sum() - 1.0)
    return modelled / measured - 1.0, yearly


def climate_class(place: PlaceClimate) -> str:
    """Tropical (coldest month from 18 C), snowy (below -3 C), else sunny (clear-sky index from 0.88) or cloudy."""
    if place.air_c.min() >= _TROPICAL_FROM_C:
        return "tropical"
    if place.air_c.min() < _SNOWY_BELOW_C:
        return "snowy"
    return "sunny" if place.clear_sky_index.mean() >= _SUNNY_FROM else "cloudy"


def _judged(row: Row, place: PlaceClimate) -> Judged:
    share = cloudless_share(float(place.clear_sky_index.mean()))
    return Judged(
        region=left_out_region(row),
        off=1.0 / (1.0 + compared(_months(place), row)[1]) - 1.0,
        years_sd=place.year_to_year_sd_share / years_of(row) ** 0.5,
        rest_sd=(place.climate_sd_share**2 - (CLOUDLESS_SD_SHARE * share) ** 2) ** 0.5,
        share=share,
    )


def _left_out_months(place: PlaceClimate, cold: float, low_sun: float) -> Floats:
    """The table's months as they would be with other factors for cold months and for the satellite's low sun."""
    months = _months(place)
    if place.region == "far_island":
        return months
    by_satellite = satellite_share(place.latitude_deg, place.longitude_deg)
    clear = months / place.clear_sky_index
    moved = (1.0 - by_satellite) * (COLD_LN_PER_10_K - cold) * cold_depth(place.air_c)
    moved += by_satellite * (LOW_SUN_LN - low_sun) * low_sun_depth(clear)
    return np.asarray(months * np.exp(moved), dtype=np.float64)


def _site(row: Row, place: PlaceClimate, left_out: Floats, judged: Judged, cloudless_sd: float | None) -> Site:
    months = _months(place)
    errors, left_out_errors = compared(months, row), compared(left_out, row)
    ends = light_ends(place, years_of(row))
    doubt = CLOUDLESS_SD_SHARE if cloudless_sd is None else cloudless_sd
    left_out_place = replace(place, climate_sd_share=hypot(judged.rest_sd, doubt * judged.share))
    return Site(
        row=row,
        region=place.region,
        climate=climate_class(place),
        months=errors[0],
        year=errors[1],
        left_out_months=left_out_errors[0],
        left_out_year=left_out_errors[1],
        held=_within(errors[1], ends),
        left_out_held=_within(left_out_errors[1], light_ends(left_out_place, years_of(row))),
        judged=judged,
    )


def light_ends(place: PlaceClimate, years: int) -> tuple[float, float]:
    """Cautious and hopeful end of a mean of so many years over the table's: the table's doubt and that of the years."""
    return ends_of(
        (
            SpreadPart("climate_data", place.climate_sd_share),
            SpreadPart("year_to_year", place.year_to_year_sd_share / years**0.5),
        )
    )


def years_of(row: Row) -> int:
    """Years that a row is the mean of; a typical year, whose months come from single years, counts as one."""
    first, dash, last = row.get("period", "").partition("-")
    return int(last) - int(first) + 1 if dash and not row["basis"].startswith("typical") else 1


def _within(error: float, ends: tuple[float, float]) -> bool:
    return ends[0] <= 1.0 / (1.0 + error) <= ends[1]


def _months(place: PlaceClimate) -> Floats:
    height, haze = np.asarray([place.elevation_m]), place.linke_turbidity[np.newaxis]
    return np.asarray(
        clear_sky_months(place.sun_days, place.latitude_deg, height, haze)[0] * place.clear_sky_index, dtype=np.float64
    )


def _read(path: Path) -> list[Row]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


Kinds = Mapping[str, Callable[[Site], bool]]


def kinds_of(sites: Sequence[Site], name_of: Callable[[Site], str]) -> Kinds:
    """A test of belonging for each name that occurs, in the alphabet's order."""

    def named(name: str) -> Callable[[Site], bool]:
        return lambda site: name_of(site) == name

    return {name: named(name) for name in sorted({name_of(site) for site in sites})}
