"""Which country does a time zone belong to?"""

from collections.abc import Mapping
from functools import cache
from importlib import resources


def country_of(time_zone: str) -> str | None:
    """The ISO 3166 code of the country whose zone it is; None at sea and for names that belong to no country.

    From ``zone.tab`` of the tz database, as packaged in tzdata (public domain), where a zone belongs to one country.
    Older names that are only links to another zone are not found there: None.

    >>> country_of("Europe/Berlin"), country_of("Etc/GMT+2")
    ('DE', None)
    """
    return _countries().get(time_zone)


@cache
def _countries() -> Mapping[str, str]:
    table = resources.files("tzdata").joinpath("zoneinfo", "zone.tab").read_text(encoding="utf-8")
    rows = (line.split("\t") for line in table.splitlines() if line and not line.startswith("#"))
    return {row[2]: row[0] for row in rows}
