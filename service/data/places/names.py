"""Which time zones are there?"""

from collections.abc import Iterator, Set
from functools import cache
from importlib import resources
from zoneinfo import available_timezones


class TimeZones(Set[str]):
    """Every IANA name that the tz database holds (the system's and that of the package tzdata).

    Nearly all names stand in the package's list; only where one does not are the system's folders walked, which takes
    as long as all else of a question.

    >>> "Asia/Kolkata" in TimeZones(), "Mars/Olympus_Mons" in TimeZones()
    (True, False)
    """

    def __contains__(self, name: object) -> bool:
        """Is there a time zone of that name?"""
        return name in _packaged() or name in _every()

    def __iter__(self) -> Iterator[str]:
        """All names."""
        return iter(_every())

    def __len__(self) -> int:
        """How many there are."""
        return len(_every())


@cache
def _packaged() -> frozenset[str]:
    return frozenset(resources.files("tzdata").joinpath("zones").read_text(encoding="utf-8").split())


@cache
def _every() -> frozenset[str]:
    """Some systems keep their own setting among the names, as ``localtime``: it would answer differently on each."""
    return frozenset(available_timezones()) - {"localtime"}
