"""Where is the sun, how does a typical year of hours look, and what falls on a tilted plane?"""

from service.core.sky.calendar import calendar_of
from service.core.sky.sun import SunPosition, sun_position
from service.core.sky.year import typical_year

__all__ = [
    "SunPosition",
    "calendar_of",
    "sun_position",
    "typical_year",
]
