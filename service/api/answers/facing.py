"""Which way does the railing face, and which arrays take that as their azimuth?"""

from collections.abc import Mapping
from typing import Any

from service.api.schemas.place import SiteIn
from service.core.model.hours import SkyYear
from service.core.model.place_facts import PlaceFacts
from service.core.tilt import Facing, SunSeen, facing_of

# What hangs on or stands before a railing or wall faces as it does.
_FACES_AS_IT = frozenset({"hung_on_rail", "behind_rail", "wall", "fence"})


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


def turned_to(given: dict[str, Any], facing: Facing | None) -> dict[str, Any]:
    """The request with the azimuth where it is sure, for arrays on a railing or wall that have none of their own."""
    if facing is None or not facing.sure:
        return given
    return {**given, "arrays": [_turned(array, facing.azimuth_deg) for array in given["arrays"]]}


def _turned(array: Mapping[str, Any], azimuth_deg: float) -> Mapping[str, Any]:
    plane = array.get("plane") or {}
    if array.get("mount") not in _FACES_AS_IT or "azimuth_deg" in plane:
        return array
    return {**array, "plane": {**plane, "azimuth_deg": azimuth_deg}}


def _minute(clock: str | None) -> int | None:
    return None if clock is None else 60 * int(clock[:2]) + int(clock[3:])
