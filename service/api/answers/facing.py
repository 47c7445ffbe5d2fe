"""Which way does the railing face, by the notes of the request?"""

from service.api.schemas.place import SiteIn
from service.core.model.hours import SkyYear
from service.core.model.place_facts import PlaceFacts
from service.core.tilt import Facing, SunSeen, facing_of


def facing_at(site: SiteIn, place: PlaceFacts, sky: SkyYear) -> Facing | None:
    """By the notes of the site; None where there are none.

    Raises:
        ContradictionError: no azimuth agrees with the notes.
    """
    if not site.sun_seen:
        return None
    notes = [
        SunSeen(month=one.month, day=one.day, from_minute=_minute(one.from_clock), to_minute=_minute(one.to_clock))
        for one in site.sun_seen
    ]
    climate = place.climate
    return facing_of(notes, sky.calendar, climate.sun_days, climate.latitude_deg, climate.longitude_deg)


def _minute(clock: str | None) -> int | None:
    return None if clock is None else 60 * int(clock[:2]) + int(clock[3:])
