"""What light reaches the rear of panels that use it? Asked for only; a simple model, meant for railing and ground.

What stands around dims the rear as it dims the front:

- The skyline hides the sun from behind and its part of the sky that the rear sees, and of sun and sky what would light
  the ground. Before a facade the rear lives on light from in front: there the skyline in front counts likewise,
  whichever hides more.
- Slab and side walls bring their facade: the rear counts as one before a facade, gets no beam, and the ground no sun
  while that stands behind the facade.
- What slab, walls and a row in front leave of the even sky on the front, they leave of the rear's and the ground's.
- Shadows of these edges and of a hand rail take of what comes from the sun, on the rear and off the ground, and of what
  sections that are given up would make, as they do in front.
- Shadows by the clock, of which nobody tells what throws them, take their share of all light on the rear, hard ones
  that of the sections which they reach: wary.

Nothing is thrown back by what stands around.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike

from service.core.model.facts import Array
from service.core.model.hours import Floats, SkyYear
from service.core.model.place import Plane
from service.core.sky.cell_layout import AT_THE_EDGE, darkest_places
from service.core.sky.daylight import Daylight, Surroundings, daylight_of, surroundings_of
from service.core.sky.dome import sky_behind, sky_seen
from service.core.sky.edge_shadow import has_edges, stands_under_or_beside, ways_past_edges
from service.core.sky.ground import ground_light
from service.core.sky.in_front import in_front_of
from service.core.sky.incidence import direction, modifier, sky_modifier
from service.core.sky.shade import taken_by_bands
from service.core.sky.transposition import ground_share, sky_share

# How openly a panel's rear side stands, 1 free all around. Before a facade a third, flat against it a tenth: judgement;
# no measurement found.
BEFORE_FACADE = 1 / 3
REAR_OPENNESS: Mapping[str, float] = MappingProxyType(
    {
        "hung_on_rail": BEFORE_FACADE, "behind_rail": BEFORE_FACADE, "balcony_floor": BEFORE_FACADE,
        "wall": 0.1, "sloped_roof": 0.1,
    }
)  # fmt: skip
# What of the ground behind a row is not in the row's own shadow, and what frame, clamps and uneven light leave of the
# rear's power: judgement, from the usual 5 to 15 % that free-standing rows are said to gain over grass (from memory).
SUNLIT_GROUND_SHARE = 0.7
EVENNESS_SHARE = 0.9
_LEAST = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RearWeights:
    """What the rears of m planes make of each light, as shares of it.

    Attributes:
        of_front_share: of the effective light on the front.
        even_sky_share, ground_share: (m,) of the even sky's and of all light on level ground.
        from_sun_share: of the beam, besides its cosine on the rear and what passes the glass; 0 where none comes there.
    """

    of_front_share: float
    even_sky_share: Floats
    ground_share: Floats
    from_sun_share: float


def counts_rear(array: Array) -> bool:
    """Does the rear of this array's panels give anything that the year counts?"""
    return array.count_rear_light and array.panel.bifaciality_share > 0.0


def rear_weights(array: Array, tilt_deg: ArrayLike, ground_reflectance_share: float) -> RearWeights:
    """The model of ``rear_light`` for planes of these tilts (m,), whatever the hours; skyline and shade left out."""
    bifaciality = array.panel.bifaciality_share * EVENNESS_SHARE
    tilt = 180.0 - np.asarray(tilt_deg, np.float64)
    if array.rear_light_share is not None:
        nothing = np.zeros_like(tilt)
        return RearWeights(
            of_front_share=array.rear_light_share * bifaciality,
            even_sky_share=nothing,
            ground_share=nothing,
            from_sun_share=0.0,
        )
    openness = rear_openness(array)
    even = bifaciality * openness * float(sky_modifier(90.0))
    return RearWeights(
        of_front_share=0.0,
        even_sky_share=even * sky_share(tilt),
        ground_share=even * ground_reflectance_share * SUNLIT_GROUND_SHARE * ground_share(tilt),
        from_sun_share=bifaciality if openness == 1.0 else 0.0,
    )


def rear_of_planes(
    array: Array,
    planes: Sequence[Plane],
    daylight: Daylight,
    surroundings: Surroundings,
    ground_reflectance_share: float,
    front_w_per_m2: Floats,
) -> Floats:
    """``rear_light`` in the hours with light, were the array in each of these planes, (m, n) as its front."""
    tilt = np.array([plane.tilt_deg for plane in planes])
    azimuth = np.array([plane.azimuth_deg for plane in planes])
    weights = rear_weights(array, tilt, ground_reflectance_share)
    if weights.of_front_share > 0.0:
        return front_w_per_m2 * weights.of_front_share
    if array.surrounded:
        return _past_obstacles(array, tilt, azimuth, daylight, surroundings, weights)
    light = np.outer(weights.even_sky_share, daylight.even_sky_w_per_m2)
    light += np.outer(weights.ground_share, daylight.ghi_w_per_m2)
    return light + _beam_behind(tilt, azimuth, daylight, weights) if weights.from_sun_share > 0.0 else light


def rear_light(sky: SkyYear, array: Array, ground_reflectance_share: float, front_w_per_m2: Floats) -> Floats:
    """Light that does work on the rear of an array, as if at square incidence on the front, (n,) W/m2.

    The rear of a plane at tilt t and azimuth a is a plane at 180 - t and a + 180: it sees (1 - cos t) / 2 of the even
    sky and (1 + cos t) / 2 of the ground (Liu and Jordan, Solar Energy 7 (1963) 53-74), part of it shadowed by the row
    itself. Where it stands free it gets the beam from behind, too; before a facade only its part of the even light.
    What stands around dims both, see above. Times the panel's bifaciality. With the array's own ``rear_light_share``
    that share of the front's light is taken instead. Not modelled: that it warms the cells.

    Args:
        sky: the hours.
        array: plane, mount, what stands around, ``rear_light_share``, bifaciality.
        ground_reflectance_share: 0 to 1.
        front_w_per_m2: (n,) effective light on the front.
    """
    daylight = daylight_of(sky)
    front = front_w_per_m2[np.newaxis, daylight.rows]
    surroundings = surroundings_of(array, sky, daylight)
    light = np.zeros(sky.ghi_w_per_m2.size)
    light[daylight.rows] = rear_of_planes(
        array, (array.plane,), daylight, surroundings, ground_reflectance_share, front
    )[0]
    return light


def rear_openness(array: Array) -> float:
    """Free, before a facade, or flat against it: by the mount, and slab and walls join a facade."""
    openness = REAR_OPENNESS.get(array.mount, 1.0)
    return min(openness, BEFORE_FACADE) if stands_under_or_beside(array) else openness


def _beam_behind(tilt_deg: Floats, azimuth_deg: Floats, daylight: Daylight, weights: RearWeights) -> Floats:
    """What the beam from behind does with nothing around, (m, n)."""
    cosine = np.maximum(direction(180.0 - tilt_deg, azimuth_deg + 180.0).T @ daylight.sun, 0.0)
    return np.asarray(weights.from_sun_share * daylight.from_sun_w_per_m2 * cosine * modifier(cosine))


def _past_obstacles(
    array: Array,
    tilt_deg: Floats,
    azimuth_deg: Floats,
    daylight: Daylight,
    surroundings: Surroundings,
    weights: RearWeights,
) -> Floats:
    """What reaches the rears past all that stands around, (m, n)."""
    sky_left, ground_sky_left = _sky_left(array, tilt_deg, azimuth_deg, free=weights.from_sun_share > 0.0)
    open_share = surroundings.skyline_open_share
    sun_on_ground, even_on_ground = ground_light(
        daylight.even_sky_w_per_m2, daylight.ghi_w_per_m2, open_share, surroundings.sky_over_ground_share
    )
    sun = weights.ground_share[:, None] * (sun_on_ground * _sun_before(array, azimuth_deg, daylight))
    if weights.from_sun_share > 0.0:
        sun = sun + _beam_behind(tilt_deg, azimuth_deg, daylight, weights) * open_share
    even = (weights.even_sky_share * sky_left)[:, None] * daylight.even_sky_w_per_m2
    even += (weights.ground_share * ground_sky_left)[:, None] * even_on_ground
    light = even + sun
    if has_edges(array):
        ways = ways_past_edges(array, tilt_deg, azimuth_deg, daylight.sun)
        light -= np.minimum(taken_by_bands(light, sun, ways), sun)
    shading = surroundings.shading
    return np.asarray(light * (shading.beam_through_share * (1.0 - shading.sections_lost_share)))


def _sky_left(array: Array, tilt_deg: Floats, azimuth_deg: Floats, *, free: bool) -> tuple[Floats, Floats]:
    """What is left of the sky that the rears see, and past the skyline of their ground's, 0 to 1, (m,) each."""
    on_rear, on_ground = np.ones_like(tilt_deg), np.ones_like(tilt_deg)
    if array.skyline:
        on_rear = _part(sky_behind(tilt_deg, azimuth_deg, array.skyline), 1.0 - sky_share(tilt_deg))
        if not free:
            ahead = sky_seen(tilt_deg, azimuth_deg, array.skyline, None, ())
            on_rear = np.minimum(on_rear, _part(ahead.after_skyline_share, ahead.bare_share))
    if stands_under_or_beside(array) or array.row_in_front is not None:
        places = darkest_places(array) if stands_under_or_beside(array) else AT_THE_EDGE
        row = in_front_of(replace(array, hand_rail=None))
        seen = sky_seen(tilt_deg, azimuth_deg, (), array.slab, array.walls, array.facade_azimuth_deg, places, row)
        in_front = _part(seen.past_all_share.min(axis=1), seen.bare_share)
        on_rear, on_ground = on_rear * in_front, on_ground * in_front
    return on_rear, on_ground


def _part(left: Floats, bare: Floats) -> Floats:
    """What is left of a whole, 0 to 1; all of nothing."""
    return np.clip(np.divide(left, bare, out=np.ones_like(bare), where=bare > _LEAST), 0.0, 1.0)


def _sun_before(array: Array, azimuth_deg: Floats, daylight: Daylight) -> Floats:
    """1 while the sun stands before the facade that slab and walls join, else 0; (m, n) or (1, n)."""
    if not stands_under_or_beside(array):
        return np.ones((1, daylight.rows.size))
    facade = np.radians(azimuth_deg if array.facade_azimuth_deg is None else [array.facade_azimuth_deg])[:, None]
    return np.asarray(daylight.sun[0] * np.sin(facade) + daylight.sun[1] * np.cos(facade) > 0.0, np.float64)
