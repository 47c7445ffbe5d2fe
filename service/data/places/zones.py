"""Which time zone holds at a place, and is it the open sea?"""

import tzfpy

from service.data.places.cells import zone_cells

_AT_SEA = "Etc/"


def time_zone_of(latitude_deg: float, longitude_deg: float) -> str:
    """The IANA time zone at a place; a nautical one ("Etc/GMT+2") on the open sea.

    From the boundaries of the package tzfpy (OpenStreetMap contributors, simplified: borders are off by up to about a
    kilometre), which are asked only near them (``cells``). Where two zones claim a place, the package's first choice.

    >>> time_zone_of(40.6, -111.9)
    'America/Denver'
    """
    return zone_cells().zone_at(latitude_deg, longitude_deg) or str(tzfpy.get_tz(longitude_deg, latitude_deg))


def is_open_sea(latitude_deg: float, longitude_deg: float) -> bool:
    """Does the place lie beyond every country's coastal waters (some 22 km)? Small islands are in the boundaries.

    >>> is_open_sea(0.0, -30.0), is_open_sea(4.17, 73.51)
    (True, False)
    """
    return time_zone_of(latitude_deg, longitude_deg).startswith(_AT_SEA)
