"""What light reaches the rear of panels that use it? Asked for only; a simple model, meant for railing and ground."""

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from service.core.model.facts import Array
from service.core.model.hours import Floats, SkyYear
from service.core.sky.incidence import direction, modifier, sky_modifier
from service.core.sky.transposition import ground_share, sky_share, split_by_anisotropy

# How openly a panel's rear side stands, 1 free all around. Before a facade a third, flat against it a tenth: judgement;
# no measurement found.
REAR_OPENNESS: Mapping[str, float] = MappingProxyType(
    {"hung_on_rail": 1 / 3, "behind_rail": 1 / 3, "balcony_floor": 1 / 3, "wall": 0.1, "sloped_roof": 0.1}
)
# What of the ground behind a row is not in the row's own shadow, and what frame, clamps and uneven light leave of the
# rear's power: judgement, from the usual 5 to 15 % that free-standing rows are said to gain over grass (from memory).
SUNLIT_GROUND_SHARE = 0.7
EVENNESS_SHARE = 0.9


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
    bifaciality = array.panel.bifaciality_share * EVENNESS_SHARE
    if array.rear_light_share is not None:
        return np.asarray(front_w_per_m2 * (array.rear_light_share * bifaciality))
    tilt, azimuth = 180.0 - array.plane.tilt_deg, (array.plane.azimuth_deg + 180.0) % 360.0
    openness = REAR_OPENNESS.get(array.mount, 1.0)
    from_sun, even = split_by_anisotropy(
        sky.sun_zenith_deg, sky.dni_w_per_m2, sky.dhi_w_per_m2, sky.extraterrestrial_w_per_m2
    )
    ground = ground_reflectance_share * SUNLIT_GROUND_SHARE * float(ground_share(tilt)) * sky.ghi_w_per_m2
    light = (even * float(sky_share(tilt)) + ground) * (openness * float(sky_modifier(90.0)))
    if openness == 1.0:
        cosine = np.maximum(direction(tilt, azimuth) @ direction(sky.sun_zenith_deg, sky.sun_azimuth_deg), 0.0)
        light = light + from_sun * cosine * modifier(cosine)
    return np.asarray(light * bifaciality)
