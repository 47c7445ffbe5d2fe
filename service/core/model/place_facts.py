"""What do the tables know of a place before any question is asked? Fetched once, handed to the core as a value."""

from dataclasses import dataclass

from service.core.model.climate import PlaceClimate


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceFacts:
    """Facts of a place from the tables: its climate, clock and country.

    ``time_zone`` is the IANA name at the coordinates, ``country`` the ISO 3166 code of that zone (None at sea or
    where a zone belongs to no country). ``climate.elevation_m`` is the height used.
    """

    climate: PlaceClimate
    time_zone: str
    country: str | None
