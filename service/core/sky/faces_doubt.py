"""How much more may the faces of what makes the skyline bring in a year than the hours count?

In the hours faces that nobody told are black, and the sun is on none: the light behind a skyline stays below that of
the bare plane, hour by hour, which a sunlit facade would break before a panel that looks north. What is left out is one
yearly sum, for the band: of told faces what the sun on them brings, once thrown back; of untold ones that and the rest,
were they bright.
"""

from dataclasses import replace

import numpy as np

from service.core.model.facts import Array
from service.core.model.hours import Floats
from service.core.sky.cell_layout import AT_THE_EDGE, darkest_places
from service.core.sky.daylight import Daylight
from service.core.sky.edge_shadow import stands_under_or_beside
from service.core.sky.faces import faces_lit
from service.core.sky.faces_seen import faces_seen
from service.core.sky.ground import thrown_back
from service.core.sky.in_front import ground_past_row_share, in_front_of
from service.core.sky.sunny_faces import sun_on_faces
from service.core.sky.transposition import ground_share

# Of faces that nobody told, what one in ten throws back or more: glass and dark brick are at 0.1, grey plaster at 0.25,
# white paint at 0.6. From memory.
BRIGHT_FACES_SHARE = 0.4
_WIDE_SLICE_DEG = 5.0  # a doubt needs no narrower ones


def more_by_faces_kwh_per_m2(
    array: Array, daylight: Daylight, ground_reflectance_share: float, on_ground_w_per_m2: Floats
) -> float:
    """What comes to an array's plane before its cover, over the year.

    Args:
        array: its plane, skyline, ``facing_reflectance_share`` and all that stands around it.
        daylight: the hours.
        ground_reflectance_share: 0 to 1.
        on_ground_w_per_m2: (n,) past the skyline, of which nothing throws anything back.
    """
    told = array.facing_reflectance_share
    share = BRIGHT_FACES_SHARE if told is None else told
    if not array.skyline or share <= 0.0:
        return 0.0
    tilt, azimuth = np.array([array.plane.tilt_deg]), np.array([array.plane.azimuth_deg])
    places = darkest_places(array) if stands_under_or_beside(array) else AT_THE_EDGE
    ways = np.concatenate((faces_lit(array.skyline, share), share * sun_on_faces(array.skyline, daylight)[None]))
    seen = faces_seen(array, ways, tilt, azimuth, replace(places, slice_deg=_WIDE_SLICE_DEG), in_front_of(array))
    more = float(seen.on_planes_share[-1, 2, 0])
    if told is None:
        even, on_ground = (light.sum(keepdims=True) for light in (daylight.even_sky_w_per_m2, on_ground_w_per_m2))
        back, settled = thrown_back(seen, ground_reflectance_share, even, on_ground)
        by_ground = ground_reflectance_share * float(ground_share(tilt)[0]) * ground_past_row_share(array)
        more += float(back[2, 0, 0] + by_ground * (settled - on_ground)[0])
    return more / 1000.0
