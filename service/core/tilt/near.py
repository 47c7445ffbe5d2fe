"""How flat is the best: which ranges come near it, and how does the whole map look?"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from service.core.model.hours import Bools, Floats
from service.core.model.place import Plane
from service.core.tilt.bounds import PlaneBounds
from service.core.tilt.lattice import compass, lattice_of_map, lattice_within, steps_within
from service.core.tilt.search import Surveyed
from service.core.tilt.short_year import in_short
from service.core.tilt.sums import Together
from service.core.tilt.wish import ANYWHERE

_WITHIN_SHARES = (0.01, 0.02, 0.05)
_MENDED_SHARE = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class NearBest:
    """Within so much of the best lies any tilt between these two at the best azimuth, and any azimuth at that tilt.

    The azimuths run clockwise from low to high; 0 and 360 together are all. ``turns``: is the azimuth open at all?
    """

    within_share: float
    low_tilt_deg: float
    high_tilt_deg: float
    low_azimuth_deg: float
    high_azimuth_deg: float
    turns: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaneMap:
    """Over all tilts and azimuths: kWh, money where a price is known, kWh used at home where that is wanted.

    Each (tilts, azimuths).
    """

    tilt_deg: Floats
    azimuth_deg: Floats
    year_kwh: Floats
    saving: Floats | None
    self_used_kwh: Floats | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """What is wanted at degrees in a row, and at the best plane."""

    at_deg: Floats
    wanted: Floats
    best: float

    def reaches(self, share: float) -> Bools:
        """Where at least this share of the best is reached."""
        return np.asarray(self.wanted >= share * self.best - 1e-9)


def near_best(bounds: PlaneBounds, best: Plane, up: Line, turned: Line) -> tuple[NearBest, ...]:
    """Ranges that a person can use: the stretch of tilts, and of azimuths, around the best that stay within a share."""
    span = bounds.azimuth_span_deg()
    turn = (best.azimuth_deg - bounds.low_azimuth_deg) % 360.0
    found = []
    for share in _WITHIN_SHARES:
        low, high = _stretch(up.reaches(1.0 - share), int(np.argmin(np.abs(up.at_deg - best.tilt_deg))))
        at = int(np.argmin(np.abs(turned.at_deg - turn)))
        left, right = _arc(turned.reaches(1.0 - share), at, all_around=span == 360.0)
        whole = span == 360.0 and right - left >= 360
        found.append(
            NearBest(
                within_share=share,
                turns=span > 0.0,
                low_tilt_deg=float(up.at_deg[low]),
                high_tilt_deg=float(up.at_deg[high]),
                low_azimuth_deg=0.0 if whole else compass(bounds.low_azimuth_deg + _turn(turned.at_deg, left, span)),
                high_azimuth_deg=360.0
                if whole
                else compass(bounds.low_azimuth_deg + _turn(turned.at_deg, right, span)),
            )
        )
    return tuple(found)


def map_of(
    together: Together,
    detail: str,
    steps_deg: tuple[float, float],
    told: tuple[Plane, Mapping[str, float]] | None = None,
    *,
    wanted: str = "energy",
    survey: Surveyed | None = None,
) -> PlaneMap:
    """The map over all tilts and azimuths, by a lattice of that detail.

    ``told``: the best plane of all, and by objective what the whole account tells of it: the map is scaled to that, and
    nowhere more of what is ``wanted``. ``survey``: what was summed anywhere, by the day or the year; where shadows have
    edges on the planes, the many that it takes are summed over like hours, and what these are off at the survey's
    planes is read between them.
    """
    tilts, azimuths = steps_within(0.0, 90.0, steps_deg[0]), np.arange(0.0, 360.0, steps_deg[1])
    stand = together.stand
    used = wanted == "self_used"
    lead = [] if told is None else [told[0]]
    bands, looks = stand.has_bands or stand.uneven, stand.facades_look_deg
    lattice = lattice_within(ANYWHERE, detail, bands=bands, facades_deg=looks)
    mends: Mapping[str, Floats] = {}
    if survey is not None and stand.has_edges and stand.days.size:
        if bands:
            lattice = lattice_of_map(tilts, azimuths, detail, looks)
        planes, short = lattice.planes(), in_short(together)
        years = short.objective_years([*planes, *survey.planes], used=used)
        mends = {one: survey.sums.year_of(one) - values[len(planes) :] for one, values in years.items()}
        at_told = together.objective_years(lead, used=used) if lead else {}
    else:
        planes = lattice.planes()
        years = at_told = together.objective_years([*planes, *lead], used=used)
    maps = {}
    for objective, values in years.items():
        read = lattice.read(values[: len(planes)], tilts, azimuths)
        if survey is not None and objective in mends:
            read += survey.lattice.read(mends[objective], tilts, azimuths)
        account = None if told is None else told[1].get(objective)
        if account is not None:
            read *= scaled_to(account, float(at_told[objective][-1]))
            if objective == wanted:
                np.minimum(read, account, out=read)
        maps[objective] = read if objective == "money" else np.maximum(read, 0.0, out=read)
    return PlaneMap(
        tilt_deg=tilts,
        azimuth_deg=azimuths,
        year_kwh=maps["energy"],
        saving=maps.get("money"),
        self_used_kwh=maps.get("self_used"),
    )


def scaled_to(account: float, tables: float) -> float:
    """By what tables are mended that lie near the account; else by nothing: then a bound, as of netting, parts them."""
    share = account / tables if tables > 0.0 else 1.0
    return share if abs(share - 1.0) <= _MENDED_SHARE else 1.0


def _turn(turns: Floats, at: int, span: float) -> float:
    return float(turns[at]) if span < 360.0 else float(at % 360)


def _stretch(near: Bools, at: int) -> tuple[int, int]:
    """First and last of the near ones in a row around ``at``."""
    low = high = at
    while low > 0 and near[low - 1]:
        low -= 1
    while high < near.size - 1 and near[high + 1]:
        high += 1
    return low, high


def _arc(near: Bools, at: int, *, all_around: bool) -> tuple[int, int]:
    """The same on a circle of whole degrees; 360 apart where all are near."""
    if not all_around:
        return _stretch(near, at)
    ring = near[:360]
    if ring.all():
        return at, at + 360
    low = high = at
    while ring[(low - 1) % 360]:
        low -= 1
    while ring[(high + 1) % 360]:
        high += 1
    return low, high
