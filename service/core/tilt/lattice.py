"""How is a smooth map read between a few planes that were computed? Cubic splines over tilt and azimuth."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, radians, sin
from types import MappingProxyType

import numpy as np

from service.core.model.hours import Floats
from service.core.model.place import Plane
from service.core.tilt.bounds import PlaneBounds


@dataclass(frozen=True, slots=True)
class _Detail:
    """The longest step between two tilts; how many parts the circle has for upright planes, at least, and for flat."""

    tilt_step_deg: float
    parts: int
    least_parts: int
    flat_parts: int = 1

    def parts_at(self, tilt_deg: float) -> int:
        """A plane's direction matters by the sine of its tilt."""
        if tilt_deg == 0.0:
            return self.flat_parts
        fours = ceil(self.parts * sin(radians(tilt_deg)) / 4.0 - 1e-9)
        return min(max(4 * fours, self.least_parts), self.parts)


_DETAIL: Mapping[str, _Detail] = MappingProxyType(
    {
        "thin": _Detail(15.0, 16, 16),
        "usual": _Detail(8.2, 36, 8),
        # A limit that cuts much has edges in its map, most on steep planes.
        "fine": _Detail(6.0, 48, 8),
        # Where a slab's shadow ends on the panel hangs on the tilt, and from which half or section on.
        "before_facade": _Detail(3.0, 36, 8),
    }
)
# The band of a rail or a row before the panels turns with them, whatever their tilt, and has edges in its map.
_DETAIL_WITH_BANDS: Mapping[str, _Detail] = MappingProxyType(
    {
        "thin": _Detail(15.0, 16, 16, 16),
        "usual": _Detail(8.2, 48, 48, 48),
        "fine": _Detail(6.0, 48, 48, 48),
        "behind_rail": _Detail(4.5, 48, 48, 48),
        "before_facade": _Detail(3.0, 48, 48, 48),
    }
)
# Of a map where shadows have edges on each plane.
_MOST_AZIMUTHS, _MOST_TILTS, _TILT_STEP_WITH_EDGES_DEG = 90, 31, 3.0
_NEARLY_FLAT_DEG = (1.0, 2.0, 4.0, 5.0, 7.0, 8.0)
_LEAST_FOR_A_CUBIC = 4
# How far from a facade planes are turned that a map under its slab is made of, to either side: closest where the map
# has an edge, for the corner that is turned in is always the darkest one.
_TURNS_DEG = (0.0, 0.7, 2.0, 4.0, 6.5, 9.5, 12.5, 16.0, 20.0, 24.0, 28.0, 31.0, 34.0, 37.0, 39.0, 41.5, 45.0, 50.0,
              55.0, 60.0, 65.0, 70.0, 76.0, 83.0, 90.0, 96.0, 103.0, 111.0, 122.0, 140.0, 160.0, 180.0)  # fmt: skip
_APART_DEG, _LEAST_APART_DEG = 4.0, 0.1


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lattice:
    """The planes of a rectangle of tilts and azimuths, fewer azimuths where a plane lies flat.

    ``turned_deg`` has one row of azimuths for each tilt; they count clockwise from the bounds' low azimuth and may pass
    360 with it. ``all_around`` means that the last azimuth of a row meets the first.
    """

    tilt_deg: Floats
    turned_deg: tuple[Floats, ...]
    low_azimuth_deg: float
    all_around: bool

    def planes(self) -> list[Plane]:
        """Row by row: all azimuths of the first tilt, then of the next."""
        return [
            Plane(tilt_deg=tilt, azimuth_deg=compass(self.low_azimuth_deg + turned))
            for tilt, row in zip(self.tilt_deg.tolist(), self.turned_deg, strict=True)
            for turned in row.tolist()
        ]

    def read(self, values: Floats, tilt_deg: Floats, turned_deg: Floats) -> Floats:
        """(k, l) values at other tilts (k,) and turns (l,), from those at the lattice's planes in their order, (n,).

        Of several values a plane, (n, p), those of each: (k, l, p).
        """
        ends = np.cumsum([row.size for row in self.turned_deg])
        known: dict[bytes, Floats] = {}
        rows = []
        for row, part in zip(self.turned_deg, np.split(values, ends[:-1]), strict=True):
            knots = row.tobytes()
            if knots not in known:
                around = self.all_around and row.size > 1
                known[knots] = _kept_spline(knots, turned_deg.tobytes(), around=around)
            rows.append(known[knots] @ part)
        up = _kept_spline(self.tilt_deg.tobytes(), tilt_deg.tobytes(), around=False)
        return np.tensordot(up, np.array(rows), axes=1)


def lattice_within(
    bounds: PlaneBounds, detail: str = "usual", *, bands: bool = False, facades_deg: Sequence[float] = ()
) -> Lattice:
    """As few planes within bounds as tell a map: thin, usual, fine, behind a rail or before a facade; some 100 to 1900.

    Thin tells where to look for its top. Usual is within 0.1 % of the best where the limit leaves six tenths or more
    of the panels' power, fine within 0.1 % down to a third of it and within 0.16 % at a sixth (own runs). So are they
    with a house behind the panels: usual where that leaves half of the sun (0.11 % found), fine anywhere. Under a slab
    planes are told apart by how far they are turned out of its facade, flat ones too (``facades_deg``, for maps all
    around): within 0.2 %, within 0.6 % where a slab upon the upper edge reaches out but 0.1 m. With ``bands`` of
    shadow that turn with the planes, and beside walls, it takes twice as many: thin, and where all hours are summed
    (``lattice_of_map`` else): within 0.5 % behind rails and rows, beside walls 1.2 %, with a slab, too, 2.4 % at worst.
    """
    wanted = (_DETAIL_WITH_BANDS if bands else _DETAIL)[detail]
    span = bounds.azimuth_span_deg()
    all_around = span == 360.0
    tilts = _ticks(bounds.low_tilt_deg, bounds.high_tilt_deg, wanted.tilt_step_deg)

    turned = [facade - bounds.low_azimuth_deg for facade in facades_deg]

    def row(tilt: float) -> Floats:
        part = wanted.parts_at(tilt)
        if part == 1 and not turned:
            return np.array([0.0])
        if all_around:
            even = np.linspace(0.0, 360.0, part, endpoint=False)
            return _before_facades(turned, even if bands else even[:0]) if turned else even
        return _ticks(0.0, span, 360.0 / part)

    return Lattice(
        tilt_deg=tilts,
        turned_deg=tuple(row(tilt) for tilt in tilts.tolist()),
        low_azimuth_deg=bounds.low_azimuth_deg,
        all_around=all_around,
    )


def lattice_of_map(tilts_deg: Floats, azimuths_deg: Floats, detail: str, facades_deg: Sequence[float] = ()) -> Lattice:
    """The planes that a map all around is made of where shadows have edges on each of them.

    Such a map bends anywhere: every azimuth that is told is computed, and every tilt of a few; of more tilts every
    third degree, closer where a rail's band passes over flat panels fastest. Of more azimuths than ``_MOST_AZIMUTHS``
    the lattice of that detail. Over like hours (``short_year``): of 25 drawn stands within 0.1 to 0.4 % of the best at
    worst, 0.7 where rail and walls stand close; of 99 planes in a hundred within 0.03 to 0.35 % (own runs).
    """
    tilts = tilts_deg
    if tilts.size > _MOST_TILTS:
        tilts = _ticks(0.0, float(tilts_deg[-1]), _TILT_STEP_WITH_EDGES_DEG)
        tilts = np.unique(np.append(tilts, _NEARLY_FLAT_DEG)) if detail == "behind_rail" else tilts
    if azimuths_deg.size <= _MOST_AZIMUTHS:
        row = azimuths_deg
    else:
        anywhere = PlaneBounds(low_tilt_deg=0.0, high_tilt_deg=90.0, low_azimuth_deg=0.0, high_azimuth_deg=360.0)
        row = lattice_within(anywhere, detail, bands=True, facades_deg=facades_deg).turned_deg[-1]
    return Lattice(tilt_deg=tilts, turned_deg=(row,) * tilts.size, low_azimuth_deg=0.0, all_around=True)


def _before_facades(facades_deg: Sequence[float], even: Floats) -> Floats:
    """Turns of planes all around, before each facade, and those of an even row that are far from any of them."""
    turns = np.array(_TURNS_DEG)
    near = np.unique(np.concatenate([(one + side * turns) % 360.0 for one in facades_deg for side in (-1.0, 1.0)]))
    near = near[np.diff(near, prepend=near[-1] - 360.0) > _LEAST_APART_DEG]
    off = np.abs((even[:, None] - near + 180.0) % 360.0 - 180.0).min(axis=1)
    return np.sort(np.append(near, even[off > _APART_DEG]))


def steps_within(low: float, high: float, step: float) -> Floats:
    """From ``low`` in whole steps; the last may be shorter, to end on ``high``."""
    whole = np.arange(low, high + 1e-9, step)
    return whole if high - whole[-1] < 1e-9 else np.append(whole, high)


def spline(knots: Floats, at: Floats) -> Floats:
    """(k, n) weights of n knots at k places between them: a cubic spline whose ends go on as they are (not-a-knot).

    Of two or three knots the straight line or parabola through them; one knot is the same everywhere.

    >>> knots = np.array([0.0, 1.0, 2.0, 3.0, 4.0])
    >>> bool(np.allclose(spline(knots, np.array([2.5])) @ knots**3, 2.5**3))
    True
    """
    count = knots.size
    if count < _LEAST_FOR_A_CUBIC:
        return _polynomial(knots, at)
    width = np.diff(knots)
    bend, rise = np.zeros((count, count)), np.zeros((count, count))  # bend @ second derivatives = rise @ values
    for i in range(1, count - 1):
        bend[i, i - 1 : i + 2] = width[i - 1], 2.0 * (width[i - 1] + width[i]), width[i]
        rise[i, i - 1 : i + 2] = 6.0 / width[i - 1], -6.0 / width[i - 1] - 6.0 / width[i], 6.0 / width[i]
    bend[0, :3] = width[1], -width[0] - width[1], width[0]
    bend[-1, -3:] = width[-1], -width[-1] - width[-2], width[-2]
    return _cubics(knots, np.asarray(np.linalg.solve(bend, rise), dtype=np.float64), at)


def spline_all_around(knots: Floats, at: Floats) -> Floats:
    """(k, n) weights of n knots of a circle of 360 deg at k places on it, by a cubic spline without an end."""
    width = np.diff(np.append(knots, knots[0] + 360.0))[:, None]
    width_before = np.roll(width, 1, axis=0)
    turn = np.eye(knots.size)
    before, after = np.roll(turn, -1, axis=1), np.roll(turn, 1, axis=1)
    bend = width_before * before + 2.0 * (width_before + width) * turn + width * after
    rise = 6.0 * ((after - turn) / width - (turn - before) / width_before)
    second = np.asarray(np.linalg.solve(bend, rise), dtype=np.float64)
    ring = np.append(knots, knots[0] + 360.0)
    weights = _cubics(ring, np.vstack((second, second[:1])), (at - knots[0]) % 360.0 + knots[0])
    weights[:, 0] += weights[:, -1]
    return weights[:, :-1]


@lru_cache(maxsize=16)  # at most some 100 kB each; maps of one step ask for the same ones
def _kept_spline(knots: bytes, at: bytes, *, around: bool) -> Floats:
    """``spline_all_around`` or ``spline``, of the same knots and places made once; read-only."""
    of = spline_all_around if around else spline
    weights = of(np.frombuffer(knots), np.frombuffer(at))
    weights.flags.writeable = False
    return weights


def compass(azimuth_deg: float) -> float:
    """The azimuth between 0 and 360 deg."""
    return azimuth_deg if 0.0 <= azimuth_deg <= 360.0 else azimuth_deg % 360.0


def _cubics(knots: Floats, second: Floats, at: Floats) -> Floats:
    """Weights of the knots' values, where ``second`` (knots, values) gives the second derivatives by them."""
    left = np.clip(np.searchsorted(knots, at, side="right") - 1, 0, knots.size - 2)
    width = knots[left + 1] - knots[left]
    b = (at - knots[left]) / width
    a = 1.0 - b
    weights = ((a**3 - a) * width**2 / 6.0)[:, None] * second[left]
    weights += ((b**3 - b) * width**2 / 6.0)[:, None] * second[left + 1]
    rows = np.arange(at.size)
    values = max(knots.size, second.shape[1])
    if values > weights.shape[1]:  # a ring's last knot is its first once more
        weights = np.hstack((weights, np.zeros((at.size, values - weights.shape[1]))))
    weights[rows, left] += a
    weights[rows, left + 1] += b
    return np.asarray(weights, dtype=np.float64)


def _polynomial(knots: Floats, at: Floats) -> Floats:
    weights = np.ones((at.size, knots.size))
    for i in range(knots.size):
        for j in range(knots.size):
            if i != j:
                weights[:, i] *= (at - knots[j]) / (knots[i] - knots[j])
    return weights


def _ticks(low: float, high: float, longest: float) -> Floats:
    if high <= low:
        return np.array([low])
    count = max(int(np.ceil((high - low) / longest - 1e-9)) + 1, 2)
    ticks = low + np.round(np.linspace(0.0, high - low, count))  # whole degrees are what people set
    ticks[-1] = high
    return np.unique(ticks)
