"""Which time zones are there?"""

from functools import cache
from zoneinfo import available_timezones


@cache
def known_time_zones() -> frozenset[str]:
    """Every IANA name that the tz database holds (the system's, else that of the package tzdata).

    Some systems keep their own setting among the names, as ``localtime``: it would answer differently on every machine.
    """
    return frozenset(available_timezones()) - {"localtime"}
