"""What do the tables know of the place that a request is about?"""

from datetime import datetime
from difflib import get_close_matches
from zoneinfo import ZoneInfo

from service.api.deps import Deps
from service.api.schemas.mistakes import Found, Mistake, RefusedRequest, shown
from service.api.schemas.place import SiteIn
from service.api.words import say
from service.core.model.hours import SkyYear
from service.core.model.place_facts import PlaceFacts
from service.core.sky import typical_year
from service.data.places import country_of, time_zone_of

# A place is looked up to a thousandth of a degree (some 100 m), cached or not, so that neighbours share its year.
_PLACE_DECIMALS = 3
# Farther off the place's own, a clock or a height is one of another place. Summits lie up to 2500 m over the mean of
# their cell of 5' (Denali; from a list of ten), valleys up to 600 m under it (of the stations in the tests).
_MOST_HOURS_OFF, _MOST_METRES_OFF = 4.0, 3000.0
_ANY_YEAR, _SECONDS_PER_HOUR, _DEG_PER_HOUR = 2025, 3600.0, 15.0


def place_of(site: SiteIn, deps: Deps) -> tuple[PlaceFacts, SkyYear]:
    """Climate, clock and country of the site, and its typical year; kept for whoever asks next.

    Raises:
        NoClimateError: at sea, or beyond the table.
        RefusedRequest: a time zone that nobody knows, or one from elsewhere in the world, or a height from there.
    """
    latitude, longitude = round(site.latitude_deg, _PLACE_DECIMALS), round(site.longitude_deg, _PLACE_DECIMALS)

    def made() -> tuple[PlaceFacts, SkyYear]:
        if site.time_zone is not None and site.time_zone not in deps.known_time_zones:
            raise _unknown_zone(site.time_zone, deps)
        zone = time_zone_of(latitude, longitude)
        if site.time_zone is not None and _hours_off(site.time_zone, longitude) > _MOST_HOURS_OFF:
            raise _elsewhere("time_zone", site.time_zone, zone)
        height_m = deps.climate.terrain.height_m(latitude, longitude)
        if site.elevation_m is not None and abs(site.elevation_m - height_m) > _MOST_METRES_OFF:
            raise _elsewhere("elevation", site.elevation_m, round(height_m))
        climate = deps.climate.at(latitude, longitude, site.elevation_m)
        facts = PlaceFacts(climate=climate, time_zone=zone, country=country_of(zone))
        return facts, typical_year(climate, site.time_zone or zone)

    return deps.places.get((latitude, longitude, site.elevation_m, site.time_zone), made)


def country_at(site: SiteIn) -> str | None:
    """The country at the site's coordinates; None at sea and where a zone belongs to no country."""
    latitude, longitude = round(site.latitude_deg, _PLACE_DECIMALS), round(site.longitude_deg, _PLACE_DECIMALS)
    return country_of(time_zone_of(latitude, longitude))


def _hours_off(zone: str, longitude_deg: float) -> float:
    """How far a zone's standard time is from that of the sun, h; none of the world's is 4 hours off where it holds.

    Nought of zones that belong to no place, such as UTC: whoever writes these means to.
    """
    if "/" not in zone or zone.startswith("Etc/"):
        return 0.0
    clock = ZoneInfo(zone)
    offsets = [datetime(_ANY_YEAR, month, 1, tzinfo=clock).utcoffset() for month in (1, 7)]
    standard_h = min(offset.total_seconds() for offset in offsets if offset is not None) / _SECONDS_PER_HOUR
    return abs((standard_h - longitude_deg / _DEG_PER_HOUR + 12.0) % 24.0 - 12.0)


def _elsewhere(what: str, given: str | float, here: str | float) -> RefusedRequest:
    found = Found()
    name = {"elevation": "elevation_m"}.get(what, what)
    facts = {"here": here}
    found.contradiction(f"/site/{name}", given, what, say("problems", f"accepted.{what}_here", facts), here, **facts)
    return RefusedRequest("contradiction", tuple(found.mistakes))


def _unknown_zone(name: str, deps: Deps) -> RefusedRequest:
    near = get_close_matches(name, deps.known_time_zones, 1, 0.6)
    problem = say("problems", "mistake.not_one_of.near" if near else "mistake.not_one_of", {"near": "".join(near)})
    mistake = Mistake(
        code="not_one_of",
        pointer="/site/time_zone",
        given=shown(name),
        problem=problem,
        accepted=say("problems", "accepted.time_zone"),
        example=near[0] if near else "Europe/Berlin",
    )
    return RefusedRequest("invalid_request", (mistake,))
