"""Which share of the gust's pressure pushes and pulls on a panel, by what it hangs on or stands on?

EN 1991-1-4 has no line for a panel on a balcony: the nearest lines are taken, and the band spans from a sheltered
place to the corner. All figures from memory of the standard of 2005.
"""

from bisect import bisect_right
from dataclasses import dataclass
from math import log10

from service.core.model.band import Band


@dataclass(frozen=True, slots=True)
class Coefficients:
    """Net pressure over gust pressure, as magnitudes; ``cautious`` is the greatest. ``clause``: where it is read."""

    push: Band
    pull: Band
    clause: str


RAILINGS = frozenset({"hung_on_rail", "behind_rail", "fence"})
# Held down by weight, so that the wind is set against it.
STANDING = frozenset({"ground_frame", "flat_roof", "balcony_floor", "free_standing"})

_TILTS_DEG = (0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0)
# Table 7.6, monopitch canopies, overall coefficients: down, up with air free below, up with the way below blocked.
_DOWN = (0.2, 0.4, 0.5, 0.7, 0.8, 1.0, 1.2)
_UP_FREE = (0.5, 0.7, 0.9, 1.1, 1.3, 1.6, 1.8)
_UP_BLOCKED = (1.3, 1.4, 1.4, 1.4, 1.4, 1.4, 1.4)
_SIGNBOARD = 1.8  # clause 7.4.3: an upright board in the open


def coefficients(mount: str, tilt_deg: float, area_m2: float) -> Coefficients:
    """The coefficients of one panel.

    Args:
        mount: what it hangs on or stands on; anything unknown is read as a frame in the open.
        tilt_deg: 0 flat to 90 upright; read for what stands on a frame.
        area_m2: of one panel: small areas catch sharper gusts (clause 7.2.1, figure 7.2).
    """
    if mount in RAILINGS:  # a parapet (table 7.9), at least a wall's middle (table 7.1), at most a board in the open
        return Coefficients(
            Band(_SIGNBOARD, 1.2, 0.8), Band(_SIGNBOARD, 1.2, 0.5),
            "clause 7.4.1 table 7.9 zone D; band: 7.2.2 table 7.1 zones D and E to 7.4.3 (signboards)",
        )  # fmt: skip
    if mount == "wall":
        return Coefficients(
            Band(1.0, by_area(0.8, 1.0, area_m2), 0.7), Band(1.4, by_area(0.8, 1.1, area_m2), 0.5),
            "clause 7.2.2 table 7.1, zones A, B and D",
        )  # fmt: skip
    if mount == "sloped_roof":
        return Coefficients(
            Band(0.7, 0.4, 0.2), Band(2.0, by_area(0.8, 1.2, area_m2), 0.5),
            "clause 7.2.5 table 7.4, zones F, G and H, about 30 degrees",
        )  # fmt: skip
    frame = _frame(tilt_deg)
    if mount != "flat_roof":
        return frame
    zone = Band(by_area(1.8, 2.5, area_m2), by_area(0.7, 1.2, area_m2), 0.2)  # zones F, H and I with sharp eaves
    return Coefficients(frame.push, _greatest(zone, frame.pull), f"clause 7.2.3 table 7.2, and {frame.clause}")


def by_area(large: float, small: float, area_m2: float) -> float:
    """A coefficient between that of 10 m2 and more (``large``) and that of 1 m2 and less (``small``)."""
    share = min(max(log10(area_m2), 0.0), 1.0) if area_m2 > 0 else 0.0
    return small + (large - small) * share


def _frame(tilt_deg: float) -> Coefficients:
    """A board on a frame: a monopitch canopy up to 30 degrees, from there on towards an upright board."""
    steep = min(max((tilt_deg - 30) / 60, 0.0), 1.0)
    down = _read(_DOWN, tilt_deg) + steep * (_SIGNBOARD - _DOWN[-1])
    free = _read(_UP_FREE, tilt_deg)
    blocked = _read(_UP_BLOCKED, tilt_deg) + steep * (_SIGNBOARD - _UP_BLOCKED[-1])
    low, high = sorted((free, blocked))
    return Coefficients(
        Band(down, down, down),
        Band(high, (low + high) / 2, low),
        "clause 7.3 table 7.6 to 30 degrees, 7.4.3 upright",
    )


def _read(values: tuple[float, ...], tilt_deg: float) -> float:
    at = min(max(bisect_right(_TILTS_DEG, tilt_deg) - 1, 0), len(_TILTS_DEG) - 2)
    share = min(max((tilt_deg - _TILTS_DEG[at]) / (_TILTS_DEG[at + 1] - _TILTS_DEG[at]), 0.0), 1.0)
    return values[at] + share * (values[at + 1] - values[at])


def _greatest(one: Band, other: Band) -> Band:
    return Band(
        max(one.cautious or 0.0, other.cautious or 0.0), max(one.middle or 0.0, other.middle or 0.0),
        max(one.hopeful or 0.0, other.hopeful or 0.0),
    )  # fmt: skip
