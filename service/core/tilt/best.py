"""Which plane gets the most light, within what the mount allows and past all that stands around?"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.sky import daylight_of
from service.core.tilt.bounds import PlaneBounds, narrowed
from service.core.tilt.scene import Scene, grouped, scene_of

Floats = NDArray[np.float64]

_COARSE_TILT_DEG = 15.0
_COARSE_AZIMUTH_DEG = 30.0
# Hills of the coarse map this near to its top may hold the true top: grouped hours are wrong by less.
_WORTH_A_CLIMB = 0.985
_MOST_CLIMBS = 3
_FACE_STEP_DEG = 5.0
_EAST_DEG, _WEST_DEG = 90.0, 270.0
_EDGE = 1e-9


@dataclass(frozen=True, slots=True)
class _Spot:
    """A plane in whole degrees from the bounds' low ends; the last step may be shorter, to end on the bound."""

    tilt: int
    azimuth: int


@dataclass(frozen=True, slots=True)
class _Field:
    """The planes within bounds as a lattice of whole degrees."""

    bounds: PlaneBounds

    @property
    def tilt_steps(self) -> int:
        return int(np.ceil(self.bounds.high_tilt_deg - self.bounds.low_tilt_deg))

    @property
    def azimuth_steps(self) -> int:
        return int(np.ceil(self.bounds.azimuth_span_deg()))

    @property
    def all_around(self) -> bool:
        return self.azimuth_steps == 360

    def spot(self, tilt: int, azimuth: int) -> _Spot:
        """The nearest spot of the lattice."""
        turned = azimuth % 360 if self.all_around else min(max(azimuth, 0), self.azimuth_steps)
        return _Spot(min(max(tilt, 0), self.tilt_steps), turned)

    def plane(self, spot: _Spot) -> Plane:
        bounds = self.bounds
        turned = min(float(spot.azimuth), bounds.azimuth_span_deg())
        return Plane(
            tilt_deg=min(bounds.low_tilt_deg + spot.tilt, bounds.high_tilt_deg),
            azimuth_deg=_compass(bounds.low_azimuth_deg + turned),
        )


def best_plane(array: Array, sky: SkyYear, ground_reflectance_share: float, bounds: PlaneBounds) -> Plane:
    """The plane of most effective light over the year, past skyline, slab, walls, shade, cover and glass.

    A map of the bounds in steps of 15 and 30 deg over grouped hours, then a climb from its highest hills over all
    hours, down to whole degrees from the bounds' low ends. Slab and walls turn with the panel,
    unless it tells its facade. Where the face is not known (``bounds.facing``), the direction is that of
    ``middle_face``.

    Args:
        array: what stands around it is used, its own plane is not.
        sky: the year at the place.
        ground_reflectance_share: 0 to 1.
        bounds: what is open.

    Returns:
        The plane, azimuth 0 to 360 deg. A year without any light gives the bounds' low ends. Not capped by any
        inverter: a low limit can make a plane off the best one just as good. Light within 0.05 % of the best on a
        whole map; with a slab or walls, whose edges make the map ragged, within some 0.5 %.

    By light alone: what the input can draw is not looked at, so that no remedy moves the plane. An obstacle never
    raises the light of the settled plane, but where a limit, a start voltage or a window decides, it may turn the
    panel to a side where less light does more (0.4 % found in 2000 draws, on a 440 W panel held to 40 W): only in a
    plane that stays can no obstacle raise the energy. ``tilt_advice`` looks for the most energy.
    """
    scene = scene_of(array, sky, ground_reflectance_share)
    if bounds.facing == "not_known":
        face = _middle_face(scene, bounds)
        bounds = narrowed(bounds, azimuth_deg=face)
    field = _Field(bounds)
    if field.tilt_steps == 0 and field.azimuth_steps == 0:
        return field.plane(_Spot(0, 0))
    rough = _Lit(grouped(scene), field)
    fine = _Lit(scene, field)
    starts = {_climbed(rough, start, 8, 2) for start in _hills(rough)}
    # By lattice order first, so that equal light gives the same plane every time.
    ordered = sorted(starts, key=lambda spot: (-rough(spot), spot.tilt, spot.azimuth))
    tops = [_climbed(fine, start, 2, 1) for start in ordered[:_MOST_CLIMBS]]
    return field.plane(max(tops, key=fine))


def best_listed(array: Array, sky: SkyYear, ground_reflectance_share: float, planes: Sequence[Plane]) -> Plane:
    """The plane of a list with the most effective light over the year; the first of equal ones."""
    if len(planes) == 1:
        return planes[0]
    light = scene_of(array, sky, ground_reflectance_share).light_kwh_per_m2(planes)
    return planes[int(np.argmax(light))]


def light_beside(array: Array, sky: SkyYear, ground_reflectance_share: float, planes: Sequence[Plane]) -> Floats:
    """The year's effective light on each of some planes, over that on the first of them, less one, (m - 1,).

    Over grouped hours, good to a few tenths of a per cent; noughts where the first has none.
    """
    first, *others = grouped(scene_of(array, sky, ground_reflectance_share)).light_kwh_per_m2(planes).tolist()
    return np.array([other / first - 1.0 if first > 0.0 else 0.0 for other in others])


def middle_face(array: Array, sky: SkyYear, ground_reflectance_share: float, bounds: PlaneBounds) -> float:
    """The azimuth that stands in for a face that nobody told: half of the possible faces get more light, half less.

    Of the faces from the bounds' low to their high azimuth through the side of the midday sun, every 5 deg; of bounds
    whose ``facing`` is "within_arc" clockwise. Under an open sky this is half-way off the best one: south-east or
    south-west, in the southern hemisphere north-east or north-west.
    """
    return _middle_face(scene_of(array, sky, ground_reflectance_share), bounds)


def light_by_face(
    array: Array, sky: SkyYear, ground_reflectance_share: float, bounds: PlaneBounds
) -> tuple[Floats, Floats]:
    """How much a face that nobody told matters: each possible azimuth and the year's effective light there.

    Returns:
        (m,) azimuths from the bounds' low to their high one through the side of the midday sun, and (m,) kWh/m2 at
        the tilt in the middle of the bounds, over grouped hours (good to a few tenths of a per cent).
    """
    return _light_by_face(scene_of(array, sky, ground_reflectance_share), bounds)


def faces_beside(azimuth_deg: float, sky: SkyYear) -> tuple[float, float]:
    """The faces among which this one was taken where nobody told it, clockwise from the low to the high azimuth.

    Half of the compass from east to west, or from west over north to east: the half in which it lies. East and west
    themselves lie in that of the midday sun.
    """
    northward = np.cos(np.radians(azimuth_deg))
    if abs(northward) < _EDGE:
        daylight = daylight_of(sky)
        northward = float(daylight.from_sun_w_per_m2 @ daylight.sun[1])
    return (_WEST_DEG, _EAST_DEG) if northward > 0.0 else (_EAST_DEG, _WEST_DEG)


def faces_between(scene: Scene, bounds: PlaneBounds) -> Floats:
    """The faces of bounds in a row: every 5 deg from the low to the high azimuth over the midday sun, or clockwise."""
    return _faces(scene, bounds)


class _Lit:
    """Light of the lattice's spots, each computed once, as many at a time as are asked for."""

    def __init__(self, scene: Scene, field: _Field) -> None:
        self.scene = scene
        self.field = field
        self._known: dict[_Spot, float] = {}

    def __call__(self, spot: _Spot) -> float:
        return self.all((spot,))[0]

    def all(self, spots: Sequence[_Spot]) -> list[float]:
        new = [spot for spot in dict.fromkeys(spots) if spot not in self._known]
        if new:
            light = self.scene.light_kwh_per_m2([self.field.plane(spot) for spot in new])
            self._known.update(zip(new, light.tolist(), strict=True))
        return [self._known[spot] for spot in spots]


def _hills(lit: _Lit) -> list[_Spot]:
    """The coarse map's local maxima that come near its top."""
    field = lit.field
    tilts = _ticks(field.tilt_steps, _COARSE_TILT_DEG)
    azimuths = _ticks(field.azimuth_steps, _COARSE_AZIMUTH_DEG)
    if field.all_around:
        azimuths = azimuths[:-1]
    heights = np.array(lit.all([_Spot(t, a) for t in tilts for a in azimuths])).reshape(len(tilts), len(azimuths))
    padded = np.pad(heights, 1, constant_values=-1.0)
    if field.all_around:
        padded[1:-1, 0], padded[1:-1, -1] = heights[:, -1], heights[:, 0]
    around = np.max([padded[:-2, 1:-1], padded[2:, 1:-1], padded[1:-1, :-2], padded[1:-1, 2:]], axis=0)
    top = (heights >= around) & (heights >= _WORTH_A_CLIMB * heights.max())
    return [_Spot(tilts[i], azimuths[j]) for i, j in np.argwhere(top)]


def _climbed(lit: _Lit, start: _Spot, first_step: int, last_step: int) -> _Spot:
    """The spot to which one climbs from ``start`` by ever shorter steps in eight directions."""
    here, step = start, first_step
    while step >= last_step:
        around = [
            lit.field.spot(here.tilt + step * up, here.azimuth + step * right)
            for up in (-1, 0, 1)
            for right in (-1, 0, 1)
        ]
        light = lit.all(around)
        there = around[int(np.argmax(light))]
        if max(light) > lit(here):
            here = there
        else:
            step //= 2
    return here


def _light_by_face(scene: Scene, bounds: PlaneBounds) -> tuple[Floats, Floats]:
    rough = grouped(scene)
    tilt = 0.5 * (bounds.low_tilt_deg + bounds.high_tilt_deg)
    faces = _faces(scene, bounds)
    return faces, rough.light_kwh_per_m2([Plane(tilt_deg=tilt, azimuth_deg=float(face)) for face in faces])


def _middle_face(scene: Scene, bounds: PlaneBounds) -> float:
    faces, light = _light_by_face(scene, bounds)
    return float(faces[np.argsort(light, kind="stable")[(faces.size - 1) // 2]])


def _faces(scene: Scene, bounds: PlaneBounds) -> Floats:
    """Every 5 deg from the low to the high azimuth through the side with more sun, or clockwise."""
    low, span = bounds.low_azimuth_deg, bounds.azimuth_span_deg()
    clockwise = low + np.linspace(0.0, span, int(np.ceil(span / _FACE_STEP_DEG)) + 1)
    back = 360.0 - span
    other_way = low - np.linspace(0.0, back, int(np.ceil(back / _FACE_STEP_DEG)) + 1)
    _, north, _ = scene.daylight.sun
    northward = float(scene.daylight.from_sun_w_per_m2 @ north)
    middle = np.cos(np.radians(low + 0.5 * span))  # points north where positive
    faces = clockwise if bounds.facing == "within_arc" or northward * middle >= 0.0 else other_way
    return np.mod(faces, 360.0)


def _ticks(steps: int, wanted_deg: float) -> list[int]:
    """Whole numbers from 0 to ``steps``, evenly, about ``wanted_deg`` apart."""
    count = int(np.ceil(steps / wanted_deg)) + 1
    return [round(tick) for tick in np.linspace(0.0, steps, count)]


def _compass(azimuth_deg: float) -> float:
    return azimuth_deg if 0.0 <= azimuth_deg <= 360.0 else azimuth_deg % 360.0
