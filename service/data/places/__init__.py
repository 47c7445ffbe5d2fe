"""Which clock and which country does a place have? Assumptions both, for the caller to confirm."""

from service.data.places.countries import country_of
from service.data.places.names import TimeZones
from service.data.places.zones import is_open_sea, time_zone_of

__all__ = ["TimeZones", "country_of", "is_open_sea", "time_zone_of"]
