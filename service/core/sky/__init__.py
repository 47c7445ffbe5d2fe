"""Where is the sun, how does a typical year of hours look, and what falls on a tilted plane?"""

from service.core.sky.before_facade import BeforeFacade, before_facade
from service.core.sky.before_house import USUAL_RATIO, ground_before_house_share, house_over_panel, ratio_of
from service.core.sky.calendar import calendar_of
from service.core.sky.cell_layout import darkest_places, layout_key
from service.core.sky.clear_sky import ClearSky, clear_sky, extraterrestrial, months_by_day
from service.core.sky.daylight import (
    Daylight,
    Surroundings,
    daylight_at,
    daylight_of,
    ground_w_per_m2,
    lit_rows,
    open_surroundings,
    surroundings_of,
)
from service.core.sky.dome import Dome, SkySeen, dome_of, sky_seen
from service.core.sky.edge_shadow import Shares, Ways, has_edges, stands_behind, stands_under_or_beside
from service.core.sky.flicker import flicker_share
from service.core.sky.given import given_sky
from service.core.sky.horizon import above_skyline, clockwise, skyline_height_deg
from service.core.sky.house import house_hiding, house_steepness, past_house_share
from service.core.sky.incidence import (
    cos_incidence,
    direction,
    ground_modifier,
    incidence_angle_deg,
    modifier,
    sky_modifier,
)
from service.core.sky.light import PlaneLight, effective_light, light_of_planes, plane_light
from service.core.sky.other_years import cloud_to_lose, plane_moves
from service.core.sky.overhang import profile_angle_deg
from service.core.sky.plane_given import level_at_most, plane_light_given
from service.core.sky.rear import (
    REAR_OPENNESS,
    RearWeights,
    counts_rear,
    rear_light,
    rear_of_planes,
    rear_openness,
    rear_weights,
)
from service.core.sky.shade import (
    Shading,
    after_shading,
    sections_lost,
    shading_of,
    taken_by_bands,
    taken_by_clock,
    time_in_window,
)
from service.core.sky.side_walls import open_half_angle_deg
from service.core.sky.snow import snow_share, stays_share
from service.core.sky.sun import SunPosition, sun_of_any_year, sun_position
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
    "REAR_OPENNESS",
    "USUAL_RATIO",
    "BeforeFacade",
    "ClearSky",
    "Daylight",
    "Dome",
    "OnPlane",
    "PlaneLight",
    "RearWeights",
    "Shading",
    "Shares",
    "SkySeen",
    "SunPosition",
    "Surroundings",
    "Ways",
    "above_skyline",
    "after_shading",
    "before_facade",
    "calendar_of",
    "clear_sky",
    "clockwise",
    "cloud_to_lose",
    "cos_incidence",
    "counts_rear",
    "darkest_places",
    "daylight_at",
    "daylight_of",
    "direction",
    "dome_of",
    "effective_light",
    "extraterrestrial",
    "flicker_share",
    "given_sky",
    "ground_before_house_share",
    "ground_modifier",
    "ground_share",
    "ground_w_per_m2",
    "has_edges",
    "hay_davies",
    "house_hiding",
    "house_over_panel",
    "house_steepness",
    "incidence_angle_deg",
    "isotropic",
    "layout_key",
    "level_at_most",
    "light_of_planes",
    "lit_rows",
    "modifier",
    "months_by_day",
    "open_half_angle_deg",
    "open_surroundings",
    "past_house_share",
    "plane_light",
    "plane_light_given",
    "plane_moves",
    "profile_angle_deg",
    "ratio_of",
    "rear_light",
    "rear_of_planes",
    "rear_openness",
    "rear_weights",
    "sections_lost",
    "shading_of",
    "sky_modifier",
    "sky_seen",
    "sky_share",
    "skyline_height_deg",
    "snow_share",
    "split_by_anisotropy",
    "stands_behind",
    "stands_under_or_beside",
    "stays_share",
    "sun_of_any_year",
    "sun_position",
    "surroundings_of",
    "taken_by_bands",
    "taken_by_clock",
    "time_in_window",
    "typical_year",
]
