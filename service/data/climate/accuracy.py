"""How far may the table be off at a place like this one? By region, from scores with whole regions left out."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Region:
    """A region of like accuracy: its code, and the relative standard deviation of the table's yearly sum there."""

    code: str
    sd_share: float


_SATELLITE = Region("satellite_box", 0.03)
_NORDIC = Region("north_of_58", 0.08)
_EUROPE_WEST = Region("western_europe", 0.04)
_EUROPE_EAST = Region("eastern_europe", 0.06)
_EUROPE_SOUTH = Region("southern_europe", 0.06)
_TROPICS = Region("tropics", 0.09)
_ELSEWHERE = Region("elsewhere", 0.06)
FAR_ISLAND = Region("far_island", 0.10)


def region_of(latitude_deg: float, longitude_deg: float) -> Region:
    """The accuracy region of a place that has a cell."""
    if 45.0 <= latitude_deg <= 56.0 and 5.0 <= longitude_deg <= 16.0:
        return _SATELLITE
    if abs(latitude_deg) > 58.0:
        return _NORDIC
    if latitude_deg > 35.5 and -11.0 <= longitude_deg <= 45.0:
        return _in_europe(latitude_deg, longitude_deg)
    return _TROPICS if abs(latitude_deg) < 25.0 else _ELSEWHERE


def _in_europe(latitude_deg: float, longitude_deg: float) -> Region:
    if latitude_deg < 45.0:
        return _EUROPE_SOUTH
    return _EUROPE_WEST if longitude_deg < 5.0 else _EUROPE_EAST
