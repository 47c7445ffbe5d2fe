"""Where is the sun, how does a typical year of hours look, and what falls on a tilted plane?"""

from service.core.sky.calendar import calendar_of
from service.core.sky.clear_sky import ClearSky, clear_sky, extraterrestrial, months_by_day
from service.core.sky.dome import SkySeen, sky_seen
from service.core.sky.horizon import above_skyline, skyline_height_deg
from service.core.sky.incidence import (
    cos_incidence,
    ground_modifier,
    incidence_angle_deg,
    modifier,
    sky_modifier,
)
from service.core.sky.light import (
    Daylight,
    PlaneLight,
    Surroundings,
    daylight_of,
    effective_light,
    plane_light,
    surroundings_of,
)
from service.core.sky.overhang import clear_of_slab, clear_of_walls, open_half_angle_deg, profile_angle_deg
from service.core.sky.shade import Shading, after_shading, sections_lost, shading_of, time_in_window
from service.core.sky.sun import SunPosition, sun_position
from service.core.sky.transposition import (
    OnPlane,
    ground_share,
    hay_davies,
    isotropic,
    sky_share,
    split_by_anisotropy,
)
from service.core.sky.year import typical_year

__all__ = [
    "ClearSky",
    "Daylight",
    "OnPlane",
    "PlaneLight",
    "Shading",
    "SkySeen",
    "SunPosition",
    "Surroundings",
    "above_skyline",
    "after_shading",
    "calendar_of",
    "clear_of_slab",
    "clear_of_walls",
    "clear_sky",
    "cos_incidence",
    "daylight_of",
    "effective_light",
    "extraterrestrial",
    "ground_modifier",
    "ground_share",
    "hay_davies",
    "incidence_angle_deg",
    "isotropic",
    "modifier",
    "months_by_day",
    "open_half_angle_deg",
    "plane_light",
    "profile_angle_deg",
    "sections_lost",
    "shading_of",
    "sky_modifier",
    "sky_seen",
    "sky_share",
    "skyline_height_deg",
    "split_by_anisotropy",
    "sun_position",
    "surroundings_of",
    "time_in_window",
    "typical_year",
]
