"""What do the tables know of the place that a request is about?"""

from difflib import get_close_matches

from service.api.deps import Deps
from service.api.schemas.mistakes import Mistake, RefusedRequest, shown
from service.api.schemas.place import SiteIn
from service.api.words import say
from service.core.model.hours import SkyYear
from service.core.model.place_facts import PlaceFacts
from service.core.sky import typical_year
from service.data.places import country_of, time_zone_of

# A place is looked up to a thousandth of a degree (some 100 m), cached or not, so that neighbours share its year.
_PLACE_DECIMALS = 3


def place_of(site: SiteIn, deps: Deps) -> tuple[PlaceFacts, SkyYear]:
    """Climate, clock and country of the site, and its typical year; kept for whoever asks next.

    Raises:
        NoClimateError: at sea, or beyond the table.
        RefusedRequest: a time zone that nobody knows.
    """
    latitude, longitude = round(site.latitude_deg, _PLACE_DECIMALS), round(site.longitude_deg, _PLACE_DECIMALS)

    def made() -> tuple[PlaceFacts, SkyYear]:
        if site.time_zone is not None and site.time_zone not in deps.known_time_zones:
            raise _unknown_zone(site.time_zone, deps)
        climate = deps.climate.at(latitude, longitude, site.elevation_m)
        zone = time_zone_of(latitude, longitude)
        facts = PlaceFacts(climate=climate, time_zone=zone, country=country_of(zone))
        return facts, typical_year(climate, site.time_zone or zone)

    return deps.places.get((latitude, longitude, site.elevation_m, site.time_zone), made)


def country_at(site: SiteIn) -> str | None:
    """The country at the site's coordinates; None at sea and where a zone belongs to no country."""
    latitude, longitude = round(site.latitude_deg, _PLACE_DECIMALS), round(site.longitude_deg, _PLACE_DECIMALS)
    return country_of(time_zone_of(latitude, longitude))


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
