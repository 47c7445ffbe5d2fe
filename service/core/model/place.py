"""Where does the set stand, and which way does a panel look?"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """A place on land and what is around it.

    ``time_zone`` is an IANA name, ``rule_area`` an ISO 3166 code; ``terrain`` is open_sea, open_land, suburb or
    city (EN 1991-1-4 in words). ``people_below`` and ``children`` are None where nobody said.
    """

    latitude_deg: float
    longitude_deg: float
    elevation_m: float
    time_zone: str
    rule_area: str
    ground_reflectance_share: float
    terrain: str
    coldest_air_c: float
    basic_wind_velocity_m_per_s: float
    people_below: bool | None
    children: bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """Tilt 0 flat to 90 upright; azimuth clockwise from north: 90 east, 180 south, 270 west."""

    tilt_deg: float
    azimuth_deg: float


MOST_SKYLINE_POINTS = 360  # of one array


@dataclass(frozen=True, slots=True, kw_only=True)
class SkylinePoint:
    """One point of the horizon as seen from the panel: everything below ``height_deg`` is hidden."""

    azimuth_deg: float
    height_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Overhang:
    """A slab above: how far over the panel's upper edge, and how far its front reaches out from there, level."""

    above_top_edge_m: float
    reaches_out_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SideWall:
    """A wall to the ``left`` or ``right`` as one looks out: how far from the panel's side edge its plane stands.

    Its plumb front edge lies ``reaches_out_m`` out of the panel's upper edge, level, as a slab's front does.
    """

    side: str
    distance_m: float
    reaches_out_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HandRail:
    """A long level rail before the panel: its underside above the panel's upper edge, how far in front, how thick."""

    above_top_edge_m: float
    distance_m: float
    thickness_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RowInFront:
    """Another row of panels in front: its upper edge above this one's lower edge, and how far out from that, level."""

    above_bottom_edge_m: float
    distance_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """Something in front of the panel, such as rail glass, and the share of light that comes through."""

    material: str
    light_through_share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Shade:
    """A shadow at wall-clock hours of some months; ``edge`` is soft (tree) or hard (wall, mast, rail).

    ``from_clock`` and ``to_clock`` are "HH:MM" of the site's time zone; where the first is later, it spans midnight.
    """

    cause: str
    edge: str
    months: tuple[int, ...]
    from_clock: str
    to_clock: str
    blocked_share: float
