"""What light reaches the rear of panels that use it? Asked for only; a simple model, meant for railing and ground."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike

from service.core.model.facts import Array
from service.core.model.hours import Floats, SkyYear
from service.core.model.place import Plane
from service.core.sky.incidence import direction, modifier, sky_modifier
from service.core.sky.light import Daylight, daylight_of
from service.core.sky.transposition import ground_share, sky_share

# How openly a panel's rear side stands, 1 free all around. Before a facade a third, flat against it a tenth: judgement;
# no measurement found.
REAR_OPENNESS: Mapping[str, float] = MappingProxyType(
    {"hung_on_rail": 1 / 3, "behind_rail": 1 / 3, "balcony_floor": 1 / 3, "wall": 0.1, "sloped_roof": 0.1}
)
# What of the ground behind a row is not in the row's own shadow, and what frame, clamps and uneven light leave of the
# rear's power: judgement, from the usual 5 to 15 % that free-standing rows are said to gain over grass (from memory).
SUNLIT_GROUND_SHARE = 0.7
EVENNESS_SHARE = 0.9


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
    """The model of ``rear_light`` for planes of these tilts (m,), whatever the hours."""
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
    openness = REAR_OPENNESS.get(array.mount, 1.0)
    even = bifaciality * openness * float(sky_modifier(90.0))
    return RearWeights(
        of_front_share=0.0,
        even_sky_share=even * sky_share(tilt),
        ground_share=even * ground_reflectance_share * SUNLIT_GROUND_SHARE * ground_share(tilt),
        from_sun_share=bifaciality if openness == 1.0 else 0.0,
    )


def rear_of_planes(
    array: Array, planes: Sequence[Plane], daylight: Daylight, ground_reflectance_share: float, front_w_per_m2: Floats
) -> Floats:
    """``rear_light`` in the hours with light, were the array in each of these planes, (m, n) as its front."""
    tilt = np.array([plane.tilt_deg for plane in planes])
    weights = rear_weights(array, tilt, ground_reflectance_share)
    if weights.of_front_share > 0.0:
        return front_w_per_m2 * weights.of_front_share
    light = np.outer(weights.even_sky_share, daylight.even_sky_w_per_m2)
    light += np.outer(weights.ground_share, daylight.ghi_w_per_m2)
    if weights.from_sun_share > 0.0:
        turned = np.array([plane.azimuth_deg for plane in planes]) + 180.0
        cosine = np.maximum(direction(180.0 - tilt, turned).T @ daylight.sun, 0.0)
        light += weights.from_sun_share * daylight.from_sun_w_per_m2 * cosine * modifier(cosine)
    return light


def rear_light(sky: SkyYear, array: Array, ground_reflectance_share: float, front_w_per_m2: Floats) -> Floats:
    """Light that does work on the rear of an array, as if at square incidence on the front, (n,) W/m2.

    The rear of a plane at tilt t and azimuth a is a plane at 180 - t and a + 180: it sees (1 - cos t) / 2 of the even
    sky and (1 + cos t) / 2 of the ground (Liu and Jordan, Solar Energy 7 (1963) 53-74), part of it shadowed by the row
    itself. Where it stands free it gets the beam from behind, too; before a facade only its part of the even light.
    Times the panel's bifaciality. With the array's own ``rear_light_share`` that share of the front's light is taken
    instead. Not modelled: what stands around (skyline, slab, shade) on the rear's side; that it warms the cells.

    Args:
        sky: the hours.
        array: plane, mount, ``rear_light_share``, bifaciality.
        ground_reflectance_share: 0 to 1.
        front_w_per_m2: (n,) effective light on the front.
    """
    daylight = daylight_of(sky)
    front = front_w_per_m2[np.newaxis, daylight.rows]
    light = np.zeros(sky.ghi_w_per_m2.size)
    light[daylight.rows] = rear_of_planes(array, (array.plane,), daylight, ground_reflectance_share, front)[0]
    return light
