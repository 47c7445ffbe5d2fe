"""Where do the made-up logs stand? Places to learn from, and others to be judged at."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from service.core.model.climate import PlaceClimate
from service.data.climate import load_climate
from service.data.places import time_zone_of

LEARNED: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "Hamburg": (53.55, 10.0),
        "Warsaw": (52.2, 21.0),
        "Vienna": (48.2, 16.4),
        "Lyon": (45.75, 4.85),
        "Utrecht": (52.1, 5.1),
        "Leeds": (53.8, -1.55),
        "Turin": (45.05, 7.7),
        "Valencia": (39.5, -0.4),
        "Gothenburg": (57.7, 12.0),
        "Cologne": (50.95, 6.95),
        "Prague": (50.1, 14.4),
        "Aberdeen": (57.15, -2.1),
        "Vancouver": (49.25, -123.1),
        "Portland": (45.5, -122.7),
        "Minneapolis": (45.0, -93.3),
        "Boston": (42.35, -71.1),
        "Atlanta": (33.75, -84.4),
    }
)
JUDGED: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "Munich": (48.15, 11.6),
        "Ghent": (51.05, 3.7),
        "Ljubljana": (46.05, 14.5),
        "Lisbon": (38.7, -9.15),
        "Salt Lake City": (40.75, -111.9),
        "Chicago": (41.9, -87.6),
    }
)


@cache
def climate_at(latitude_deg: float, longitude_deg: float) -> tuple[PlaceClimate, str]:
    """Climate and time zone of a place."""
    climate = load_climate().at(latitude_deg, longitude_deg, None)
    return climate, time_zone_of(latitude_deg, longitude_deg)
