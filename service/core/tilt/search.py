"""Which plane is best for all arrays together, and which planes if each may have its own?"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np

from service.core.energy.kernel import PLANES_AT_ONCE
from service.core.model.hours import Floats
from service.core.model.place import Plane
from service.core.tilt.bounds import PlaneBounds
from service.core.tilt.home import Home, Singles
from service.core.tilt.lattice import Lattice, compass, lattice_within, steps_within
from service.core.tilt.stand import Stand
from service.core.tilt.sums import Sums, Together, worth_of

_FINE_TILT_DEG, _FINE_AZIMUTH_DEG = 1.0, 2.0
# Where slab, walls or skyline make a map ragged, its higher hills are all climbed.
_MOST_HILLS, _WORTH_A_CLIMB = 3, 0.985
_STEPS_DEG = (4.0, 2.0, 1.0)
_SWEEPS = 4
# A start that the coarse lattice leaves so far behind the other is not climbed on from.
_WORTH_POLISHING = 0.998
_SPREAD_DEG = 75.0

Value = Callable[[Singles], Floats]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Surveyed:
    """What was computed of the planes within bounds: those of a lattice, by day."""

    together: Together
    bounds: PlaneBounds
    lattice: Lattice
    planes: tuple[Plane, ...]
    sums: Sums


def surveyed(together: Together, bounds: PlaneBounds, wanted: str | None = None, *, years: bool = False) -> Surveyed:
    """Look at a thin lattice within bounds: it tells where to climb. What is summed: see ``Together.sums``."""
    stand = together.stand
    lattice = lattice_within(bounds, "thin", bands=stand.has_bands or stand.uneven)
    planes = tuple(lattice.planes())
    return Surveyed(
        together=together,
        bounds=bounds,
        lattice=lattice,
        planes=planes,
        sums=together.sums(planes, wanted, years=years),
    )


def best_together(survey: Surveyed, objective: str, *, roughly: bool = False) -> Plane:
    """The plane, the same for all arrays but for their offsets, of which most is wanted over the year.

    The survey's splines tell where to look; there the plane is computed and climbed to whole degrees from the bounds'
    low ends, unless it is wanted ``roughly``. Equal ones: the first. A year without light gives the bounds' low ends.
    """
    wanted = survey.sums.year_of(objective)
    if not np.any(wanted != wanted[0]):
        return survey.planes[0]
    lattice, bounds = survey.lattice, survey.bounds
    tilts = steps_within(bounds.low_tilt_deg, bounds.high_tilt_deg, _FINE_TILT_DEG)
    turns = steps_within(0.0, bounds.azimuth_span_deg(), _FINE_AZIMUTH_DEG)
    fine = lattice.read(wanted, tilts, turns)
    value = worth_of(objective, survey.together.stand, survey.together.home)
    around = any(kind.around for kind in survey.together.stand.kinds)
    if around and not roughly:
        starts = _hills(fine, all_around=lattice.all_around)[:_MOST_HILLS]
    else:
        starts = [divmod(int(np.argmax(fine)), turns.size)]
    if roughly:
        [(i, j), *_] = starts
        return Plane(tilt_deg=float(tilts[i]), azimuth_deg=compass(bounds.low_azimuth_deg + float(turns[j])))
    climbed = [
        _climbed(lambda planes: value(survey.together.dc_w(planes)), bounds, (tilts[i], turns[j]), around=around)
        for i, j in starts
    ]
    return max(climbed, key=lambda one: one[1])[0]


def best_of(together: Together, planes: Sequence[Plane], objective: str) -> Plane:
    """The best of a list; the first of equal ones."""
    value = worth_of(objective, together.stand, together.home)
    return planes[int(np.argmax(value(together.dc_w(planes))))]


def best_apart(
    stand: Stand,
    home: Home | None,
    bounds: Sequence[PlaneBounds],
    start: Sequence[Plane],
    objective: str,
    listed: Sequence[Plane] = (),
) -> tuple[Plane, ...]:
    """The planes if each array may have its own, never worse than ``start``; each within its bounds.

    One array after the other takes its best place beside the others, until none moves; from ``start`` and from arrays
    spread to either side of it, since a shared limit makes hills of their own. First on a coarse lattice, then by
    steps down to a degree. Of ``listed`` planes, where there are any, nothing else is taken.
    """
    value = worth_of(objective, stand, home)
    coarse = [list(listed) or _coarse(one) for one in bounds]
    known: dict[tuple[int, tuple[Plane, ...]], Singles] = {}
    powers_of = _Powers(stand)
    nearest = () if listed else stand.nearest()
    for kind, planes in zip(stand.kind_of, coarse, strict=True):
        if (kind, tuple(planes)) not in known:
            known[kind, tuple(planes)] = stand.dc_w(kind, planes, nearest)
    powers = [known[kind, tuple(planes)] for kind, planes in zip(stand.kind_of, coarse, strict=True)]
    found: list[_Apart] = []
    looked_at: set[_Place] = set()
    for first in (tuple(start),) if listed else (tuple(start), _spread(start, bounds)):
        here = _standing(powers_of, value, first)
        settled = _settled_apart(here, coarse, powers, value)
        # The choices were read roughly: never worse than before by the finer tables either.
        found.append(max(here, _standing(powers_of, value, settled), key=lambda one: one.reached))
    found.sort(key=lambda one: -one.reached)
    if not listed:
        best = found[0].reached  # below nought where what is sent out is billed
        near = best - (1.0 - _WORTH_POLISHING) * abs(best)
        found = [_polished(powers_of, value, bounds, one, looked_at) for one in found if one.reached >= near]
    return tuple(max(found, key=lambda one: one.reached).planes)


# Which kinds of arrays stand in which planes; what the set gives hangs on nothing else.
_Place = tuple[tuple[int, float, float], ...]


@dataclass(slots=True, eq=False)
class _Powers:
    """The d.c. power of arrays in planes that the ways to the top pass, each computed once."""

    stand: Stand
    known: dict[tuple[int, Plane], Singles] = field(default_factory=dict)

    def of(self, kind: int, planes: Sequence[Plane]) -> Singles:
        """(m, n) of an array of a kind in each of these planes."""
        new = [plane for plane in planes if (kind, plane) not in self.known]
        if new:
            for plane, row in zip(new, self.stand.dc_w(kind, new), strict=True):
                self.known[kind, plane] = row
        return np.stack([self.known[kind, plane] for plane in planes])

    def place(self, planes: Sequence[Plane]) -> _Place:
        """Where the arrays stand, in no order."""
        kinds = zip(self.stand.kind_of, planes, strict=True)
        return tuple(sorted((kind, one.tilt_deg, one.azimuth_deg) for kind, one in kinds))


@dataclass(slots=True)
class _Apart:
    """The planes of the arrays on the way, the d.c. power of each, (n,), and how much is wanted of them."""

    planes: list[Plane]
    beside: list[Singles]
    reached: float


def _standing(powers: _Powers, value: Value, planes: Sequence[Plane]) -> _Apart:
    """The arrays in these planes."""
    beside = [powers.of(kind, [plane])[0] for kind, plane in zip(powers.stand.kind_of, planes, strict=True)]
    return _Apart(list(planes), beside, float(value(np.sum(beside, axis=0)[None])[0]))


def _settled_apart(
    start: _Apart, choices: Sequence[Sequence[Plane]], powers: Sequence[Singles], value: Value
) -> list[Plane]:
    """One array after the other in the best of its choices beside the others; not where these stand as before."""
    planes, beside, reached = list(start.planes), list(start.beside), start.reached
    chosen: dict[int, list[Plane]] = {}
    for _ in range(_SWEEPS):
        before = reached
        for at, choice in enumerate(choices):
            others = planes[:at] + planes[at + 1 :]
            if chosen.get(at) == others:
                continue
            chosen[at] = others
            values = _beside(value, powers[at], _sum_but(beside, at))
            top = int(np.argmax(values))
            if values[top] > reached:
                planes[at], beside[at], reached = choice[top], powers[at][top], float(values[top])
        if reached <= before:
            break
    return planes


def _sum_but(powers: Sequence[Singles], left_out: int) -> Singles:
    total = np.zeros_like(powers[0])
    for at, one in enumerate(powers):
        if at != left_out:
            total += one
    return total


def _beside(value: Value, powers: Singles, others: Singles) -> Floats:
    """How much is wanted of each of an array's powers beside those of the others; a few at a time stay in the cache."""
    return np.concatenate(
        [value(powers[at : at + PLANES_AT_ONCE] + others) for at in range(0, len(powers), PLANES_AT_ONCE)]
    )


def _polished(
    powers: _Powers, value: Value, bounds: Sequence[PlaneBounds], here: _Apart, looked_at: set[_Place]
) -> _Apart:
    """The planes climbed to, array by array, by ever shorter steps; what was looked at is not looked at again."""
    for step in _STEPS_DEG:
        for _ in range(_SWEEPS):
            before = here.reached
            for at, kind in enumerate(powers.stand.kind_of):
                around = []
                for plane in _around(bounds[at], here.planes[at], step):
                    place = powers.place([*here.planes[:at], plane, *here.planes[at + 1 :]])
                    if place not in looked_at:
                        looked_at.add(place)
                        around.append(plane)
                if not around:
                    continue
                dc = powers.of(kind, around)
                values = value(dc + _sum_but(here.beside, at))
                top = int(np.argmax(values))
                if values[top] > here.reached:
                    here.planes[at], here.beside[at], here.reached = around[top], dc[top], float(values[top])
            if here.reached <= before:
                break
    return here


def _climbed(
    of: Callable[[list[Plane]], Floats], bounds: PlaneBounds, start: tuple[float, float], *, around: bool
) -> tuple[Plane, float]:
    tilt, turned = start
    here = Plane(tilt_deg=float(tilt), azimuth_deg=compass(bounds.low_azimuth_deg + float(turned)))
    [reached] = of([here])
    looked_at = {here}
    for step in _STEPS_DEG if around else _STEPS_DEG[1:]:
        while near := [one for one in _around(bounds, here, step) if one not in looked_at]:
            looked_at.update(near)
            values = of(near)
            top = int(np.argmax(values))
            if not values[top] > reached:
                break
            here, reached = near[top], values[top]
    return here, float(reached)


def _around(bounds: PlaneBounds, plane: Plane, step: float) -> list[Plane]:
    """The eight planes around one, as far as they lie within bounds; none where these leave one plane."""
    span = bounds.azimuth_span_deg()
    here = (plane.azimuth_deg - bounds.low_azimuth_deg) % 360.0
    found = {}
    for up in (-step, 0.0, step):
        for right in (-step, 0.0, step):
            tilt = min(max(plane.tilt_deg + up, bounds.low_tilt_deg), bounds.high_tilt_deg)
            turned = here + right if span == 360.0 else min(max(here + right, 0.0), span)
            found[(tilt, turned % 360.0)] = Plane(
                tilt_deg=tilt, azimuth_deg=compass((bounds.low_azimuth_deg + turned) % 360.0)
            )
    return [one for one in found.values() if one != plane]


def _coarse(bounds: PlaneBounds) -> list[Plane]:
    """Every second tilt and third azimuth of the lattice within bounds, their last ones too."""
    lattice = lattice_within(bounds)
    rows = list(zip(lattice.tilt_deg.tolist(), lattice.turned_deg, strict=True))
    found = []
    for tilt, row in rows[::2] if len(rows) % 2 else [*rows[::2], rows[-1]]:
        turns = row[::3] if lattice.all_around or row.size == 1 else np.unique(np.append(row[::3], row[-1]))
        found += [
            Plane(tilt_deg=tilt, azimuth_deg=compass(lattice.low_azimuth_deg + turned)) for turned in turns.tolist()
        ]
    return found


def _spread(start: Sequence[Plane], bounds: Sequence[PlaneBounds]) -> tuple[Plane, ...]:
    """Every other array turned to the left of its plane, the rest to the right, within bounds."""
    return tuple(
        _turned(within, plane, _SPREAD_DEG if at % 2 else -_SPREAD_DEG)
        for at, (plane, within) in enumerate(zip(start, bounds, strict=True))
    )


def _turned(bounds: PlaneBounds, plane: Plane, by_deg: float) -> Plane:
    span = bounds.azimuth_span_deg()
    turned = (plane.azimuth_deg - bounds.low_azimuth_deg) % 360.0 + by_deg
    if span < 360.0:
        turned = min(max(turned, 0.0), span)
    return Plane(tilt_deg=plane.tilt_deg, azimuth_deg=compass((bounds.low_azimuth_deg + turned) % 360.0))


def _hills(fine: Floats, *, all_around: bool) -> list[tuple[int, int]]:
    """The map's local maxima that come near its top, highest first."""
    padded = np.pad(fine, 1, constant_values=-np.inf)
    if all_around:
        padded[1:-1, 0], padded[1:-1, -1] = fine[:, -2], fine[:, 1]
    near = np.max([padded[:-2, 1:-1], padded[2:, 1:-1], padded[1:-1, :-2], padded[1:-1, 2:]], axis=0)
    top = float(fine.max())
    high = np.argwhere((fine >= near) & (fine >= top - (1.0 - _WORTH_A_CLIMB) * abs(top)))
    ordered = sorted(high.tolist(), key=lambda spot: (-fine[spot[0], spot[1]], spot))
    return [(i, j) for i, j in ordered]
